#!/bin/sh
# Builds the optional native peers into tests/bench/native/build; a peer whose library is missing is left out.
# Debian packages: g++, libgeos-dev (GEOS), libcgal-dev (CGAL).
cd "$(dirname "$0")" || exit 1
mkdir -p build
flags='-std=c++17 -O3 -DNDEBUG -march=native'
g++ $flags geos.cpp -o build/geos -lgeos_c || echo 'GEOS peer not built (libgeos-dev missing?)'
g++ $flags cgal.cpp -o build/cgal -lgmp -lmpfr || echo 'CGAL peer not built (libcgal-dev missing?)'
