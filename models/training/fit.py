"""Fits the confidence of the network's words on the sets that settings may be chosen by, and prints the numbers of judge.ts.

Usage: fit.py ROWS.jsonl…   (written by measure.ts for the sets `back` and `trained-voices`)
A logistic regression, each group weighed alike, by Newton's method with a little ridge; a second one for what the first leaves
unsettled, of the surest of three views (`shifted` holds the other two) and of how many of the others agree with it.
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


def regression(x, y, groups):
    """The weights, and the probabilities that they give."""
    weight = np.array([1 / groups.count(group) for group in groups])
    weight *= len(weight) / weight.sum()
    b = np.zeros(x.shape[1])
    for _ in range(60):
        p = 1 / (1 + np.exp(-x @ b))
        slope = x.T @ (weight * (y - p)) - 0.5 * b
        curve = (x * (weight * p * (1 - p))[:, None]).T @ x + 0.5 * np.eye(len(b))
        b += np.linalg.solve(curve, slope)
    return b, 1 / (1 + np.exp(-x @ b))


def again(table, b, p):
    """The weights of the second look."""
    x, y, groups = [], [], []
    for (row, evidence, _), first in zip(table, p):
        others = [view for view in row['heard'].get('shifted', []) if view['evidence']]
        if not others or not 0.05 <= first < 0.99:
            continue
        views = [{'text': row['heard']['swarfnet']['text'], 'evidence': evidence}, *others]
        best = max(views, key=lambda view: np.dot(features(view['evidence']), b))
        agree = sum(view['text'] == best['text'] for view in views if view is not best) / 2
        x.append([*features(best['evidence']), agree])
        y.append(float(best['text'] == row['said']))
        groups.append(row['group'])
    if x:
        weights, _ = regression(np.array(x), np.array(y), groups)
        print('again', {name: round(float(value), 4) for name, value in zip([*NAMES, 'agree'], weights)})


def main():
    table = list(rows(sys.argv[1:]))
    x = np.array([features(evidence) for _, evidence, _ in table])
    y = np.array([right for *_, right in table])
    groups = [row['group'] for row, *_ in table]
    b, p = regression(x, y, groups)
    print({name: round(float(value), 4) for name, value in zip(NAMES, b)})
    again(table, b, p)
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
