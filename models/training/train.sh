#!/bin/bash
# The one command: makes the training speech, trains the network, exports it. Usage: train.sh AUDIO_FOLDER EMBEDDING.onnx
# README.md says what must be installed, and what STEPS, SENTENCES and OUT mean for a trial on a machine without a GPU.
set -euo pipefail
audio=$1 embedding=$2
here=$(cd "$(dirname "$0")" && pwd)
root=$(cd "$here/../.." && pwd)
work=${WORK:-$root/.cache/ear}
python=${PYTHON:-python3}
mkdir -p "$work"
cd "$root"
"$python" "$here/pack_real.py" "$audio" "$work/real.npz"

# Two stages, each on sentences of its own seed, the second going on from the first; the rate falls to nearly nothing within
# each, and the mean of the weights of both is kept.
stage() {
  local seed=$1 sentences=$2 steps=$3 rate=$4
  shift 4
  npx tsx "$here/phrases.ts" "$work/phrases$seed.txt" "${SENTENCES:-$sentences}" "$seed"
  "$python" "$here/synthesise.py" "$work/phrases$seed.txt" "$work/shards$seed" --seed "$seed"
  "$python" "$here/train.py" --shards "$work/shards$seed" --real "$work/real.npz" --embedding "$embedding" --out "$work/stage$seed" \
    --steps "${STEPS:-$steps}" --seconds "${SECONDS_A_STEP:-600}" --rate "$rate" --seed "$seed" --noises "${NOISES:-1100}" "$@"
}
stage 11 84000 12000 2e-3
stage 13 90000 16400 1.5e-3 --start "$work/stage11/swarfnet.npz"

if [ -n "${OUT:-}" ]; then
  # A trial: the network of the project and the fixtures of its tests are left alone.
  "$python" "$here/export.py" "$work/stage13/swarfnet.npz" "$OUT" --mean "$work/stage11/swarfnet.npz"
  exit
fi
"$python" "$here/export.py" "$work/stage13/swarfnet.npz" models/swarfnet/swarfnet.onnx --mean "$work/stage11/swarfnet.npz" --check tests/ear/network/phone-net.json
"$python" "$here/mel_fixture.py" tests/ear/network/mels.json
npx tsx scripts/models/manifest.ts
