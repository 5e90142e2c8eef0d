"""Trains the network. Usage: train.py --shards FOLDER --real FILE --embedding FILE --out FOLDER [--minutes M | --steps N]

On a GPU the usual run is 8 minutes; on a CPU give few steps (about 3 s each on two cores at --seconds 60).
"""
import argparse
import copy
import math
import time
from contextlib import nullcontext
from pathlib import Path
from queue import Queue
from threading import Thread

import numpy as np
import torch
from torch.nn import functional as F

from lexicon import PHONES, load
from network import Network
from speech import Speech


def labels(speech, utterances, device):
    sequences = [speech.phones(utterance) for utterance, _ in utterances]
    sizes = torch.tensor([len(each) for each in sequences], device=device)
    flat = torch.tensor([phone for each in sequences for phone in each], device=device, dtype=torch.long)
    return flat, sizes


def ctc(log, steps, targets):
    """The lesser loss of several ways of saying each utterance, one call for all of them."""
    flat = torch.cat([phones for phones, _ in targets])
    sizes = torch.cat([each for _, each in targets])
    ways = len(targets)
    if len(flat) == 0:
        return torch.zeros(log.shape[0], device=log.device)
    losses = F.ctc_loss(log.repeat(ways, 1, 1).transpose(0, 1), flat, steps.repeat(ways), sizes, reduction='none', zero_infinity=True)
    return losses.view(ways, -1).amin(0)


def batches(speech, seconds):
    """Batches of like lengths, each of about `seconds` of sound, for ever."""
    while True:
        drawn = sorted(speech.draw(4096), key=lambda each: each[1])
        packed, at = [], 0
        while at < len(drawn):
            size = 1
            while at + size < len(drawn) and (size + 1) * drawn[at + size][1] <= seconds * 16000:
                size += 1
            packed.append(drawn[at:at + size])
            at += size
        order = speech.dice.permutation(len(packed))
        for one in order:
            utterances = packed[one]
            mels, steps = speech.batch(utterances)
            yield mels, steps, [labels(speech, utterances, speech.device) for _ in range(2)]


def ahead(items, count=4):
    """The same items, made in a thread while the last ones are used."""
    queue = Queue(count)

    def fill():
        try:
            for item in items:
                queue.put(item)
        except Exception as fault:
            queue.put(fault)

    Thread(target=fill, daemon=True).start()
    while True:
        item = queue.get()
        if isinstance(item, Exception):
            raise item
        yield item


def distance(a, b):
    row = list(range(len(b) + 1))
    for i, x in enumerate(a, 1):
        before, row[0] = row[0], i
        for j, y in enumerate(b, 1):
            before, row[j] = row[j], min(row[j] + 1, row[j - 1] + 1, before + (x != y))
    return row[-1]


@torch.no_grad()
def check(network, speech, clips, snr, device):
    """Phone error rate of the likeliest outputs, against the nearest of the pronunciations drawn."""
    network.eval()
    speech = copy.copy(speech)
    speech.dice = np.random.default_rng(5)
    wrong = total = 0
    for at in range(0, len(clips), 50):
        utterances = [([(clip, 4000, 1.0, clip['length'])], 8000 + clip['length']) for clip in clips[at:at + 50]]
        mels, steps = speech.batch(utterances, augment=False, snr=(snr, snr), clean_share=0)
        best = network(mels).argmax(2).cpu().numpy()
        for row, (utterance, _) in enumerate(utterances):
            line = best[row, :int(steps[row])]
            said = [int(x) for k, x in enumerate(line) if x != 0 and (k == 0 or x != line[k - 1])]
            wants = [speech.phones(utterance) for _ in range(4)]
            error, length = min((distance(want, said), len(want)) for want in wants)
            wrong, total = wrong + error, total + length
    network.train()
    return 100 * wrong / total


def main():
    options = argparse.ArgumentParser()
    options.add_argument('--shards', required=True)
    options.add_argument('--real', required=True)
    options.add_argument('--embedding', required=True)
    options.add_argument('--dictionary')
    options.add_argument('--start', help='weights to go on from')
    options.add_argument('--out', required=True)
    options.add_argument('--minutes', type=float, default=8)
    options.add_argument('--steps', type=int, default=0)
    options.add_argument('--seconds', type=float, default=600)
    options.add_argument('--rate', type=float, default=2e-3)
    options.add_argument('--width', type=int, default=256)
    options.add_argument('--seed', type=int, default=1)
    options.add_argument('--noises', type=int, default=640)
    options.add_argument('--state', help='where a run that was stopped goes on from, and is kept')
    options.add_argument('--stop-after', type=float, default=math.inf, help='minutes of this sitting; with --state the next one goes on')
    chosen = options.parse_args()
    device = 'cuda' if torch.cuda.is_available() else 'cpu'
    torch.manual_seed(chosen.seed)
    speech = Speech(chosen.shards, chosen.real, load(dictionary=chosen.dictionary), device, chosen.seed, chosen.noises)
    network = Network(chosen.width).to(device)
    if chosen.start:
        network.load_state_dict({name: torch.from_numpy(np.array(value, np.float32)) for name, value in np.load(chosen.start).items() if name in network.state_dict()})
    else:
        network.embedding.load_onnx(chosen.embedding)
    if device == 'cuda':
        network.embedding.to(memory_format=torch.channels_last)
    lower = list(network.embedding.parameters())
    upper = [each for name, each in network.named_parameters() if not name.startswith('embedding.')]
    optimiser = torch.optim.AdamW([{'params': upper, 'lr': chosen.rate}, {'params': lower, 'lr': chosen.rate}], weight_decay=0.01)
    average = copy.deepcopy(network)
    sitting, step, spent, running = time.time(), 0, 0.0, 0.0
    if chosen.state and Path(chosen.state).exists():
        kept = torch.load(chosen.state, map_location=device)
        network.load_state_dict(kept['network'])
        average.load_state_dict(kept['average'])
        optimiser.load_state_dict(kept['optimiser'])
        step, spent, running = kept['step'], kept['spent'], kept['running']
        torch.manual_seed(chosen.seed + step)
        speech.dice = np.random.default_rng(chosen.seed + step)
    begin = sitting - spent
    for mels, steps, targets in ahead(batches(speech, chosen.seconds)):
        done = step / chosen.steps if chosen.steps else (time.time() - begin) / (60 * chosen.minutes)
        if done >= 1 or time.time() - sitting > 60 * chosen.stop_after:
            break
        slope = min(1, step / 400) * (0.5 + 0.5 * math.cos(math.pi * done)) + 0.005
        optimiser.param_groups[0]['lr'] = chosen.rate * slope
        optimiser.param_groups[1]['lr'] = chosen.rate * slope * 0.25 * (step > 300)
        with torch.autocast('cuda', dtype=torch.bfloat16) if device == 'cuda' else nullcontext():
            out, early = network(mels, middle=True)
        out, early = out.float(), early.float()
        # A word with several pronunciations is taught by the one that the network finds nearer.
        loss = ctc(out, steps, targets) + 0.3 * ctc(early, steps, targets)
        loss = torch.where(targets[0][1] == 0, -(out[:, :, 0].mean(1)) * 40, loss)
        loss = (loss / steps.clamp(min=1)).mean()
        optimiser.zero_grad()
        loss.backward()
        torch.nn.utils.clip_grad_norm_(network.parameters(), 2.0)
        optimiser.step()
        with torch.no_grad():
            keep = min(0.998, (1 + step) / (20 + step))
            for kept, now in zip(average.parameters(), network.parameters()):
                kept.lerp_(now, 1 - keep)
            for mine, theirs in zip(average.buffers(), network.buffers()):
                mine.copy_(theirs)
        if step % 10 == 0:
            running = loss.item() if step == 0 else running + 0.1 * (loss.item() - running)
        step += 1
        if step % 500 == 0 or step in (20, 100):
            shown = '' if step % 3000 else ' '.join(
                f'{name} {check(average, speech, clips, snr, device):.1f}%'
                for name, clips, snr in (('real', speech.real_check, 40), ('real5dB', speech.real_check, 5),
                                         ('synthetic', speech.synthetic_check, 40), ('synthetic5dB', speech.synthetic_check, 5)))
            print(f'{time.time() - begin:.0f} s, step {step}, loss {running:.4f} {shown}', flush=True)
    if chosen.state:
        torch.save({'network': network.state_dict(), 'average': average.state_dict(), 'optimiser': optimiser.state_dict(), 'step': step,
                    'spent': time.time() - begin, 'running': running}, chosen.state)
    for name, clips, snr in (('real', speech.real_check, 40), ('real 10 dB', speech.real_check, 10), ('real 5 dB', speech.real_check, 5),
                             ('synthetic', speech.synthetic_check, 40), ('synthetic 5 dB', speech.synthetic_check, 5)):
        print(f'phone errors, {name}: {check(average, speech, clips, snr, device):.1f} %')
    Path(chosen.out).mkdir(parents=True, exist_ok=True)
    np.savez(Path(chosen.out) / 'swarfnet.npz', width=chosen.width, steps=step, seed=chosen.seed,
             **{name: value.float().cpu().numpy() for name, value in average.state_dict().items()})
    print(f'{step} steps, {len(PHONES)} phones')


if __name__ == '__main__':
    main()
