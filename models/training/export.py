"""Writes the trained network as ONNX: norms folded in, weights as 8-bit integers with a scale for each output channel.

Usage: export.py WEIGHTS.npz OUT.onnx [--mean WEIGHTS.npz] [--check FIXTURE.json]
The weights are unpacked to floats when the session is made, so the sums are those of the floats that the integers stand for.
The check file holds one utterance of noise and what torch makes of it with the same rounded weights, for the tests.
"""
import argparse
import json

import numpy as np
import onnx
import torch
from onnx import TensorProto, helper, numpy_helper

from features import BANDS, LOW_BANDS
from lexicon import PHONES
from network import CLASSES, PAD, Embedding, Network


def rounded(weights):
    """8-bit integers and a scale for each row."""
    flat = weights.reshape(weights.shape[0], -1)
    scale = np.maximum(np.abs(flat).max(1), 1e-8) / 127
    return np.clip(np.round(flat / scale[:, None]), -127, 127).astype(np.int8).reshape(weights.shape), scale.astype(np.float32)


class Writer:
    def __init__(self):
        self.nodes, self.values, self.count = [], [], 0

    def node(self, kind, inputs, **settings):
        self.count += 1
        name = f't{self.count}'
        self.nodes.append(helper.make_node(kind, inputs, [name], **settings))
        return name

    def value(self, array):
        self.count += 1
        name = f'w{self.count}'
        self.values.append(numpy_helper.from_array(np.ascontiguousarray(array), name))
        return name

    def conv(self, x, weights, bias, **settings):
        integers, scale = rounded(weights)
        unpacked = self.node('DequantizeLinear', [self.value(integers), self.value(scale), self.value(np.zeros(len(scale), np.int8))], axis=0)
        inputs = [x, unpacked] + ([] if bias is None else [self.value(bias.astype(np.float32))])
        return self.node('Conv', inputs, **settings)

    def slice(self, x, axis, begin, end):
        numbers = [self.value(np.array([n], np.int64)) for n in (begin, end, axis)]
        return self.node('Slice', [x, *numbers])

    def reshape(self, x, shape):
        return self.node('Reshape', [x, self.value(np.array(shape, np.int64))])


def folded(weights, norm):
    """A convolution without a bias and the norm after it, as one."""
    scale = norm['weight'] / np.sqrt(norm['running_var'] + 1e-5)
    return weights * scale.reshape(-1, *[1] * (weights.ndim - 1)), norm['bias'] - norm['running_mean'] * scale


def write(state, dilations, kernel):
    def norm(name):
        return {each: state[f'{name}.{each}'] for each in ('weight', 'bias', 'running_mean', 'running_var')}

    w = Writer()
    x = w.node('Unsqueeze', [w.slice('mels', 2, 0, LOW_BANDS), w.value(np.array([1], np.int64))])
    floor = w.value(np.array(-0.4, np.float32))
    near = None
    for at, (_, _, high, broad) in enumerate(Embedding.SHAPES):
        side = 1 if broad == 3 else 0
        if at == 19:
            x = w.node('MaxPool', [x], kernel_shape=[2, 2], strides=[1, 2])
            x = w.conv(x, state['embedding.convs.19.weight'], None, kernel_shape=[high, broad], dilations=[2, 1])
            break
        x = w.conv(x, state[f'embedding.convs.{at}.weight'], state[f'embedding.convs.{at}.bias'], kernel_shape=[high, broad], pads=[0, side, 0, side])
        x = w.node('Max', [w.node('LeakyRelu', [x], alpha=0.2), floor])
        if at == 10:
            near = x
        if at in Embedding.POOLS:
            x = w.node('MaxPool', [x], kernel_shape=list(Embedding.POOLS[at]), strides=list(Embedding.POOLS[at]))
    far = w.reshape(w.node('Concat', [x, x], axis=3), [1, 96, -1])
    near = w.slice(w.reshape(w.node('Transpose', [near], perm=[0, 1, 3, 2]), [1, 576, -1]), 2, 13, -13)
    high = w.node('Transpose', [w.slice(w.slice('mels', 1, PAD - 2, 10 ** 6), 2, LOW_BANDS, BANDS)], perm=[0, 2, 1])
    high = w.node('Relu', [w.conv(high, state['high.0.weight'], state['high.0.bias'], kernel_shape=[3])])
    high = w.slice(w.conv(high, state['high.2.weight'], state['high.2.bias'], kernel_shape=[4], strides=[2]), 2, 0, -17)
    x = w.node('Relu', [w.conv(w.node('Concat', [near, far, high], axis=1), *folded(state['join.0.weight'], norm('join.1')), kernel_shape=[1])])
    for at, dilation in enumerate(dilations):
        name = f'blocks.{at}'
        deep, bias = folded(state[f'{name}.deep.weight'], norm(f'{name}.norm'))
        reach = dilation * (kernel // 2)
        y = w.conv(x, deep, bias, kernel_shape=[kernel], dilations=[dilation], pads=[reach, reach], group=deep.shape[0])
        y = w.node('Relu', [w.conv(y, state[f'{name}.up.weight'], state[f'{name}.up.bias'], kernel_shape=[1])])
        x = w.node('Add', [x, w.conv(y, *folded(state[f'{name}.down.weight'], norm(f'{name}.norm2')), kernel_shape=[1])])
    x = w.node('Transpose', [w.conv(x, state['out.weight'], state['out.bias'], kernel_shape=[1])], perm=[0, 2, 1])
    w.nodes.append(helper.make_node('LogSoftmax', [x], ['phones'], axis=2))
    graph = helper.make_graph(
        w.nodes, 'swarfnet',
        [helper.make_tensor_value_info('mels', TensorProto.FLOAT, [1, 'padded', BANDS])],
        [helper.make_tensor_value_info('phones', TensorProto.FLOAT, [1, 'steps', CLASSES])],
        w.values,
    )
    model = helper.make_model(graph, opset_imports=[helper.make_opsetid('', 13)], producer_name='swarfside')
    model.ir_version = 7
    helper.set_model_props(model, {'phones': ' '.join(PHONES), 'pad': str(PAD)})
    onnx.checker.check_model(model)
    return model


def quantised(state, network):
    """The same rounding in torch, norms folded before it, so that a check compares like with like."""
    with torch.no_grad():
        for each in network.modules():
            if isinstance(each, (torch.nn.Conv1d, torch.nn.Conv2d)):
                integers, scale = rounded(each.weight.numpy())
                each.weight.copy_(torch.from_numpy(integers * scale.reshape(-1, *[1] * (integers.ndim - 1))))
    return network


def main():
    options = argparse.ArgumentParser()
    options.add_argument('weights')
    options.add_argument('out')
    options.add_argument('--mean', help='weights of the stage before: the mean of both is written')
    options.add_argument('--check')
    chosen = options.parse_args()
    state = dict(np.load(chosen.weights))
    if chosen.mean:
        before = np.load(chosen.mean)
        state = {name: ((value + before[name]) / 2).astype(np.float32) if value.dtype == np.float32 else value for name, value in state.items()}
    network = Network(int(state['width'])).eval()
    network.load_state_dict({name: torch.from_numpy(np.array(value)) for name, value in state.items() if name in network.state_dict()})
    dilations = [block.deep.dilation[0] for block in network.blocks]
    onnx.save(write(state, dilations, network.blocks[0].deep.kernel_size[0]), chosen.out)
    if chosen.check:
        # Scaling a row before or after rounding comes to the same integers, so the unfolded network rounds alike but for signs.
        generator = np.random.default_rng(3)
        mels = np.round(5 + 2 * np.sin(np.arange(64)[:, None] / 7 + np.arange(BANDS) / 5) + generator.normal(0, 0.5, (64, BANDS)), 3).astype(np.float32)
        padded = np.concatenate([mels[:1].repeat(PAD, 0), mels, mels[-1:].repeat(PAD, 0)])
        with torch.no_grad():
            wanted = quantised(state, network)(torch.from_numpy(padded)[None])[0].numpy()
        with open(chosen.check, 'w') as file:
            json.dump({'mels': [[round(float(x), 3) for x in row] for row in mels], 'phones': [[round(float(x), 4) for x in row] for row in wanted]}, file)


if __name__ == '__main__':
    main()
