/* What `configure` would write for CoinUtils and Clp, the same for every build of ours: plain C++11, no BLAS, no
   LAPACK, no compression, no readline, no threads. The two builds must walk the same path through a linear program,
   so nothing here may depend on the machine. */
#ifndef RAILWRIGHT_COIN_CONFIG_H
#define RAILWRIGHT_COIN_CONFIG_H

#include "config_clp.h"
#include "config_coinutils.h"

#define COIN_HAS_COINUTILS 1
#define COIN_HAS_CLP 1
#define COIN_CLP_CHECKLEVEL 0
#define COIN_CLP_VERBOSITY 0
#define COIN_COINUTILS_CHECKLEVEL 0
#define COIN_COINUTILS_VERBOSITY 0
#define COIN_C_FINITE std::isfinite
#define COIN_C_ISNAN std::isnan
#define COINUTILS_HAS_CSTDINT 1
#define COINUTILS_HAS_STDINT_H 1
#define COINUTILS_MEMPOOL_MAXPOOLED -1

#define HAVE_CFLOAT 1
#define HAVE_CINTTYPES 1
#define HAVE_CMATH 1
#define HAVE_CSTDINT 1
#define HAVE_FLOAT_H 1
#define HAVE_INTTYPES_H 1
#define HAVE_MATH_H 1
#define HAVE_MEMORY_H 1
#define HAVE_STDINT_H 1
#define HAVE_STDLIB_H 1
#define HAVE_STRINGS_H 1
#define HAVE_STRING_H 1
#define HAVE_SYS_STAT_H 1
#define HAVE_SYS_TYPES_H 1
#define HAVE_UNISTD_H 1
#define STDC_HEADERS 1

#endif
