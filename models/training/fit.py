"""Fits the confidence of the network's words on the sets that settings may be chosen by, and prints the numbers of judge.ts.

Usage: fit.py ROWS.jsonl…   (written by measure.ts for the sets `back` and `trained-voices`)
A logistic regression, each group weighed alike, by Newton's method with a little ridge.
"""
import json
import math
import sys

import numpy as np

NAMES = ['bias', 'shortAPhone', 'short', 'ahead', 'logPhones']


def features(e):
    phones = e['phones']
    return [1, e['short'] / phones, e['short'], min(e['ahead'], 10), math.log(phones)]


def rows(paths):
    for path in paths:
        for line in open(path):
            row = json.loads(line)
            heard = row['heard']['swarfnet']
            if heard.get('evidence'):
                yield row, heard['evidence'], float(heard['text'] == row['said'])


def main():
    table = list(rows(sys.argv[1:]))
    x = np.array([features(evidence) for _, evidence, _ in table])
    y = np.array([right for *_, right in table])
    groups = [row['group'] for row, *_ in table]
    weight = np.array([1 / groups.count(group) for group in groups])
    weight *= len(weight) / weight.sum()
    b = np.zeros(x.shape[1])
    for _ in range(60):
        p = 1 / (1 + np.exp(-x @ b))
        slope = x.T @ (weight * (y - p)) - 0.5 * b
        curve = (x * (weight * p * (1 - p))[:, None]).T @ x + 0.5 * np.eye(len(b))
        b += np.linalg.solve(curve, slope)
    print({name: round(float(value), 4) for name, value in zip(NAMES, b)})
    p = 1 / (1 + np.exp(-x @ b))
    for threshold in (0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8):
        cells = []
        for group in sorted(set(groups)):
            mine = np.array([each == group for each in groups])
            said = np.array([row['said'] != '' for row, *_ in table])
            if (mine & said).any():
                taken = p[mine & said] >= threshold
                cells.append(f'{group}: right {np.mean(taken * y[mine & said]):.3f} wrong {np.mean(taken * (1 - y[mine & said])):.3f}')
            else:
                cells.append(f'{group}: refused {np.mean(p[mine] < threshold):.3f}')
        print(threshold, '; '.join(cells))


if __name__ == '__main__':
    main()
