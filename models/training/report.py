"""Tables of what measure.ts wrote. Usage: report.py ROWS.jsonl…

For each group and condition: right and accepted; wrong and accepted; refused. Of what must be refused, the share refused. The
confidence of the network is worked out anew from the evidence, so that rows measured before a change of weights still serve.
"""
import json
import math
import re
import sys
from collections import defaultdict
from pathlib import Path

JUDGE = (Path(__file__).resolve().parents[2] / 'src/ear/network/judge.ts').read_text()
WEIGHTS = {name: float(value) for name, value in re.findall(r'(\w+): (-?[\d.]+)', re.search(r'CONFIDENCE = \{(.*?)\}', JUDGE)[1])}
FROM = float(re.search(r'ACCEPT_FROM = ([\d.]+)', JUDGE)[1])


def confidence(e):
    odds = WEIGHTS['bias'] + WEIGHTS['shortAPhone'] * e['short'] / e['phones'] + WEIGHTS['short'] * e['short']
    odds += WEIGHTS['ahead'] * min(e['ahead'], 10) + WEIGHTS['logPhones'] * math.log(e['phones'])
    return 1 / (1 + math.exp(-max(-50, min(50, odds))))


def share(k, n):
    """A share in percent with its 95 % interval, by Wilson."""
    p, z = k / n, 1.96
    middle = (p + z * z / (2 * n)) / (1 + z * z / n)
    reach = z * math.sqrt(p * (1 - p) / n + z * z / (4 * n * n)) / (1 + z * z / n)
    return f'{100 * p:.1f} ({100 * max(0, middle - reach):.0f}-{100 * min(1, middle + reach):.0f})'


def verdicts(row):
    heard = row['heard']
    out = {}
    net = heard.get('swarfnet')
    if net:
        sure = confidence(net['evidence']) if net.get('evidence') else 0
        out['swarfnet'] = (net['text'], sure >= FROM)
    other = heard.get('soundswallower')
    if other:
        out['soundswallower'] = (other['text'], other['accepted'])
    if net and other:
        # Fused: agreement is believed; without it the network must be surer, and the other may not be sure of something else.
        agree = net['text'] == other['text'] and net['text'] != ''
        against = other['accepted'] and not agree
        out['fused'] = (net['text'], agree and sure >= FROM / 4 or sure >= (0.8 if against else FROM))
    return out


def main():
    rows = [json.loads(line) for path in sys.argv[1:] for line in open(path)]
    tally = defaultdict(lambda: [0, 0, 0])
    for row in rows:
        for engine, (text, accepted) in verdicts(row).items():
            cell = tally[row['condition'], row['group'], row['said'] != '', engine]
            cell[0] += 1
            cell[1] += accepted and text == row['said']
            cell[2] += accepted and text != row['said']
    for (condition, group, wanted, engine), (n, right, wrong) in sorted(tally.items()):
        said = f'right {share(right, n)}, wrong {share(wrong, n)}' if wanted else f'refused {share(n - wrong, n)}'
        print(f'{condition} | {group} | {engine} | n {n} | {said}')


if __name__ == '__main__':
    main()
