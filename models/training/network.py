"""The network: Google's speech embedding (Apache 2.0) as the lower part, read at 20 ms, and a small convolutional phone model on it.

Input: (batch, frames + 72, 44) log mels, 36 frames of padding at each end; frames a multiple of 4.
Output: (batch, frames / 2, 40) log probabilities of blank and 39 phones, one each 20 ms.
"""
import numpy as np
import torch
from torch import nn
from torch.nn import functional as F

from features import LOW_BANDS
from lexicon import PHONES

PAD = 36
CLASSES = len(PHONES) + 1


def leaky(x):
    """The embedding's own activation: a leaky ReLU with a floor."""
    return torch.clamp(F.leaky_relu(x, 0.2), min=-0.4)


class Embedding(nn.Module):
    """The published network with its last halving of time left out (its last convolution reaches two steps apart instead)."""

    SHAPES = [(24, 1, 3, 3), (24, 24, 1, 3), (24, 24, 3, 1)] + [
        shape for wide, deep in ((48, 24), (72, 48), (96, 72), (96, 96))
        for shape in ((wide, deep, 1, 3), (wide, wide, 3, 1), (wide, wide, 1, 3), (wide, wide, 3, 1))
    ] + [(96, 96, 3, 1)]
    POOLS = {2: (2, 2), 6: (1, 2), 10: (2, 2), 14: (1, 2)}

    def __init__(self):
        super().__init__()
        self.convs = nn.ModuleList(
            nn.Conv2d(deep, wide, (high, broad), padding=(0, 1 if broad == 3 else 0), dilation=(2 if at == 19 else 1, 1), bias=at != 19)
            for at, (wide, deep, high, broad) in enumerate(self.SHAPES)
        )

    def forward(self, x):
        near = None
        for at, conv in enumerate(self.convs):
            if at == 19:
                x = F.max_pool2d(x, (2, 2), (1, 2))
                x = conv(x)
            else:
                x = leaky(conv(x))
                if at == 10:
                    near = x
                if at in self.POOLS:
                    x = F.max_pool2d(x, self.POOLS[at], self.POOLS[at])
        return near, x

    def load_onnx(self, path):
        import onnx
        from onnx import numpy_helper

        graph = onnx.load(path).graph
        values = {each.name: numpy_helper.to_array(each) for each in graph.initializer}
        convs = [node for node in graph.node if node.op_type == 'Conv']
        assert len(convs) == len(self.convs)
        self.load_numpy([values[name] for node in convs for name in node.input[1:]])

    def load_numpy(self, arrays):
        arrays = iter(arrays)
        with torch.no_grad():
            for conv in self.convs:
                conv.weight.copy_(torch.from_numpy(np.array(next(arrays))))
                if conv.bias is not None:
                    conv.bias.copy_(torch.from_numpy(np.array(next(arrays))))


class Block(nn.Module):
    def __init__(self, width, kernel, dilation, drop):
        super().__init__()
        self.deep = nn.Conv1d(width, width, kernel, padding=dilation * (kernel // 2), dilation=dilation, groups=width, bias=False)
        self.norm = nn.BatchNorm1d(width)
        self.up = nn.Conv1d(width, width * 2, 1)
        self.down = nn.Conv1d(width * 2, width, 1, bias=False)
        self.norm2 = nn.BatchNorm1d(width)
        self.drop = nn.Dropout(drop)

    def forward(self, x):
        y = self.up(self.norm(self.deep(x)))
        return x + self.drop(self.norm2(self.down(F.relu(y))))


class Network(nn.Module):
    def __init__(self, width=256, dilations=(1, 1, 2, 1, 2, 4, 1, 2, 1), kernel=9, drop=0.1):
        super().__init__()
        self.embedding = Embedding()
        self.high = nn.Sequential(nn.Conv1d(12, 48, 3), nn.ReLU(), nn.Conv1d(48, 48, 4, stride=2))
        self.join = nn.Sequential(nn.Conv1d(72 * 8 + 96 + 48, width, 1, bias=False), nn.BatchNorm1d(width), nn.ReLU())
        self.blocks = nn.ModuleList(Block(width, kernel, dilation, drop) for dilation in dilations)
        self.middle = nn.Conv1d(width, CLASSES, 1)
        self.out = nn.Conv1d(width, CLASSES, 1)

    def forward(self, mels, middle=False):
        low = mels[:, None, :, :LOW_BANDS].contiguous(memory_format=torch.channels_last)
        near, far = self.embedding(low)
        far = far[:, :, :, 0]
        steps = far.shape[2]
        # Each 40 ms step of the far view is said twice; the views are cut to the same middles (see the sums in README.md).
        far = far[:, :, :, None].expand(-1, -1, -1, 2).reshape(far.shape[0], 96, steps * 2)
        near = near.permute(0, 1, 3, 2).reshape(near.shape[0], 72 * 8, near.shape[2])[:, :, 13:13 + steps * 2]
        high = self.high(mels[:, 34:, LOW_BANDS:].transpose(1, 2))[:, :, :steps * 2]
        x = self.join(torch.cat([near, far, high], 1))
        early = None
        for at, block in enumerate(self.blocks):
            x = block(x)
            if middle and at == 3:
                early = F.log_softmax(self.middle(x), 1).transpose(1, 2)
        out = F.log_softmax(self.out(x), 1).transpose(1, 2)
        return (out, early) if middle else out
