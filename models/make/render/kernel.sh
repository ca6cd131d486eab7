#!/usr/bin/env bash
# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
# Makes the kernels with which Debian's Blender 3.4 traces light on an accelerator (rendered.py --on gpu). Debian ships their
# source alone, which knows no accelerator newer than 8.9; nothing else in it stands in the way. Takes five minutes on one core.
#
#   models/make/render/kernel.sh [ARCHITECTURE]      90 by default; as root, with nvcc (tried with CUDA 13) on the path
#
# Blender also needs libcuda.so where the loader finds it.
set -euo pipefail
architecture=${1:-90}
cycles=/usr/share/blender/scripts/addons/cycles
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cp -r "$cycles/source" "$work/"
cd "$work/source"
sed -i 's/__CUDA_ARCH__ <= 899/__CUDA_ARCH__ <= 999/' kernel/device/cuda/config.h
nvcc -arch="sm_$architecture" --cubin kernel/device/cuda/kernel.cu -o "$work/kernel.cubin" -m64 --use_fast_math -DNVCC -I"$PWD" -std=c++17
mkdir -p "$cycles/lib"
mv "$work/kernel.cubin" "$cycles/lib/kernel_sm_$architecture.cubin"
