#!/usr/bin/env bash
# Installs BUILD into a fresh folder, builds the consumer against it by find_package and by pkg-config, and runs both.
# The programs stand in the prefix's bin: fonts and layouts are found beside them, in share.
# usage: run.sh SOURCE BUILD COMPILER
set -euo pipefail
source=$1 build=$2 compiler=$3
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
prefix=$work/prefix

cmake --install "$build" --prefix "$prefix" >/dev/null
for file in bin/wayfolio share/man/man1/wayfolio.1 share/man/man5/wayfolio-{document,layout,mapping,record,certificate}.5 share/man/man7/wayfolio-{accuracy,service}.7 \
            share/bash-completion/completions/wayfolio lib/systemd/system/wayfolio.{service,socket} share/wayfolio/layouts/report.json \
            share/wayfolio/schemas/{result,facts,mapping,evaluation,findings,comparison,layout}.schema.json; do
    [[ -e $prefix/$file ]] || { echo "not installed: $file" >&2; exit 1; }
done
for schema in "$prefix"/share/wayfolio/schemas/*; do
    cmp <("$prefix/bin/wayfolio" schema "$(basename "$schema" .schema.json)") "$schema"
done

cmake -S "$source/tests/consumer" -B "$work/by-cmake" -G Ninja -DCMAKE_CXX_COMPILER="$compiler" \
      -DCMAKE_PREFIX_PATH="$prefix" -DCMAKE_RUNTIME_OUTPUT_DIRECTORY="$prefix/bin" >/dev/null
cmake --build "$work/by-cmake" >/dev/null

export PKG_CONFIG_PATH
PKG_CONFIG_PATH=$(dirname "$(find "$prefix" -name wayfolio.pc)")
# shellcheck disable=SC2046  # flags are a list of words
"$compiler" -std=c++20 "$source/tests/consumer/main.cpp" \
            -o "$prefix/bin/by-pkg-config" $(pkg-config --cflags --libs wayfolio)

document=$source/sample-results/smallest.json
"$prefix/bin/wayfolio" report "$document" -o "$work/program.pdf"
for program in "$prefix/bin/consumer" "$prefix/bin/by-pkg-config"; do
    [[ $("$program" "$document" "$work/library.pdf") == "B 0.9" ]] || { echo "$program: B is not 0.9" >&2; exit 1; }
    cmp "$work/program.pdf" "$work/library.pdf"
done

# Moved as a whole, the program finds its data; a program that stands elsewhere is given the folder.
mv "$prefix" "$work/moved"
"$work/moved/bin/wayfolio" report "$document" -o "$work/moved.pdf"
cmp "$work/program.pdf" "$work/moved.pdf"
mkdir "$work/elsewhere"
cp "$work/moved/bin/by-pkg-config" "$work/elsewhere/"
mv "$work/moved/share/wayfolio" "$work/elsewhere/data"
(cd / && "$work/elsewhere/by-pkg-config" "$document" "$work/elsewhere.pdf" "$work/elsewhere/data" >/dev/null)
cmp "$work/program.pdf" "$work/elsewhere.pdf"
echo "installed, found by find_package and by pkg-config: the library writes the same bytes as the program"
