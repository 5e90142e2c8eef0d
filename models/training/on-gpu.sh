#!/bin/bash
# Runs on a machine with a GPU and no network: unpacks the voices, speaks the sentences, trains. Usage: on-gpu.sh KIT OUT SENTENCES train-options…
# voices.tar.xz holds /opt/kit with the programs and their libraries (bin, lib; t for those of a newer Debian) and the voices where they look for them.
set -euo pipefail
kit=$1 out=$2 sentences=$3
shift 3
here=$(cd "$(dirname "$0")" && pwd)
work=${WORK:-${TMPDIR:-/var/tmp}/swarfnet}
mkdir -p "$work" "$out"
if [ -f "$kit/voices.tar.xz" ] && [ ! -d /opt/kit ]; then tar xJf "$kit/voices.tar.xz" -C / --no-same-owner; fi
if [ ! -f "$work/done" ]; then
  for tool in flite espeak-ng festival; do
    printf '#!/bin/sh\nLD_LIBRARY_PATH=/opt/kit/lib exec /opt/kit/bin/%s "$@"\n' "$tool" >"$work/$tool"
    chmod +x "$work/$tool"
  done
  for tool in RHVoice-test pico2wave; do
    printf '#!/bin/sh\nexec /opt/kit/t/ld-linux-x86-64.so.2 --library-path /opt/kit/t /opt/kit/bin/%s "$@"\n' "$tool" >"$work/$tool"
    chmod +x "$work/$tool"
  done
  head -n "$sentences" "$kit/phrases.txt" >"$work/phrases.txt"
  begin=$(date +%s)
  PATH=$work:$PATH OMP_NUM_THREADS=1 python3 "$here/synthesise.py" "$work/phrases.txt" "$work/shards" --seed "${SEED:-1}" 2>"$out/synthesis.log"
  echo "speech made in $(($(date +%s) - begin)) s"
  touch "$work/done"
fi
PYTHONUNBUFFERED=1 python3 "$here/train.py" --shards "$work/shards" --real "$kit/real.npz" --embedding "$kit/embedding.onnx" \
  --dictionary "$kit/dict.txt" --out "$out" "$@"
