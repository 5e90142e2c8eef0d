"""Words to phones, by the recogniser's own dictionary (CMU, BSD) and the project's pronunciations, which go before it."""
import re
from pathlib import Path

PHONES = ('AA AE AH AO AW AY B CH D DH EH ER EY F G HH IH IY JH K L M N NG OW OY P R S SH T TH UH UW V W Y Z ZH').split()
"""Output 0 of the network is the blank; phone k of this list is output k + 1."""

ROOT = Path(__file__).resolve().parents[2]


def lines(path):
    return path.read_text(encoding='latin-1').splitlines() if path.exists() else []


def load(root=ROOT, dictionary=None):
    """word -> list of pronunciations, each a list of phone numbers (1..39)."""
    code = {phone: at + 1 for at, phone in enumerate(PHONES)}
    words = {}
    source = dictionary or root / 'node_modules/soundswallower/model/en-us/dict.txt'
    for own, path in ((True, root / 'models/pronunciations.txt'), (False, Path(source))):
        for line in lines(path):
            if line.startswith(('#', ';;')) or not line.strip():
                continue
            word, *phones = re.sub(r'#.*', '', line).split()
            word = re.sub(r'\(\d+\)$', '', word.lower())
            if not own and word in OWN:
                continue
            if own:
                OWN.add(word)
            words.setdefault(word, []).append([code[re.sub(r'\d', '', phone)] for phone in phones])
    if 'thou' not in OWN:
        words['thou'] = [[code['TH'], code['AW']]]
    return words


OWN = set()
