# SPDX-License-Identifier: MIT
# The libraries we stand on. Header-only ones are Debian's packages; for WebAssembly they are reached through a private
# folder of links, because /usr/include as a whole must stay off Emscripten's include path. The others are built
# from their Debian sources, with the same settings in both builds, and only when something links them.
if(EMSCRIPTEN)
  set(rw_headers ${CMAKE_BINARY_DIR}/third_party_headers)
  file(MAKE_DIRECTORY ${rw_headers})
  foreach(folder nlohmann fmt tl fast_float)
    if(EXISTS /usr/include/${folder} AND NOT EXISTS ${rw_headers}/${folder})
      file(CREATE_LINK /usr/include/${folder} ${rw_headers}/${folder} SYMBOLIC)
    endif()
  endforeach()
endif()

function(rw_header_library name)
  add_library(rw_${name} INTERFACE)
  add_library(rw::${name} ALIAS rw_${name})
  if(EMSCRIPTEN)
    target_include_directories(rw_${name} SYSTEM INTERFACE ${rw_headers})
  endif()
endfunction()
rw_header_library(json)
rw_header_library(fmt)
target_compile_definitions(rw_fmt INTERFACE FMT_HEADER_ONLY)
rw_header_library(expected)
rw_header_library(fast_float)

# Every WebAssembly program reads numbers with fast_float (see wasm_strtod.cpp).
if(EMSCRIPTEN)
  add_library(rw_wasm_strtod STATIC ${CMAKE_CURRENT_LIST_DIR}/wasm_strtod.cpp)
  add_library(rw::wasm_strtod ALIAS rw_wasm_strtod)
  target_link_libraries(rw_wasm_strtod PRIVATE rw::fast_float)
  target_link_options(rw_wasm_strtod INTERFACE LINKER:--wrap=strtod)
  link_libraries(rw_wasm_strtod)
endif()

execute_process(
  COMMAND ${CMAKE_SOURCE_DIR}/tools/fetch_sources.sh geographiclib pugixml
  RESULT_VARIABLE rw_fetch_failed)
if(rw_fetch_failed)
  message(FATAL_ERROR "The third-party sources could not be fetched; run tools/setup.sh and see the message above.")
endif()
set(rw_sources ${CMAKE_SOURCE_DIR}/build/third_party/src)

# rw_source_library(NAME include-folder sources...): a static library of somebody else's code, its warnings off.
function(rw_source_library name include)
  add_library(rw_${name} STATIC EXCLUDE_FROM_ALL ${ARGN})
  add_library(rw::${name} ALIAS rw_${name})
  target_compile_options(rw_${name} PRIVATE -w -ffp-contract=off)
  target_include_directories(rw_${name} SYSTEM PUBLIC ${include})
endfunction()

# The linear-programming solver that tests hold our own beside: Debian's, natively alone.
if(RAILWRIGHT_TESTS AND NOT EMSCRIPTEN)
  find_package(PkgConfig REQUIRED)
  pkg_check_modules(CLP REQUIRED IMPORTED_TARGET clp)
  add_library(rw_clp INTERFACE)
  add_library(rw::clp ALIAS rw_clp)
  target_link_libraries(rw_clp INTERFACE PkgConfig::CLP)
  # As system headers: their warnings are not ours.
  target_include_directories(rw_clp SYSTEM INTERFACE ${CLP_INCLUDE_DIRS})
endif()

# Geodesy: geodesics, the local tangent plane and UTM; the rest of the library is left out.
file(STRINGS ${rw_sources}/geographiclib/VERSION rw_geographic_version LIMIT_COUNT 1)
set(rw_geographic_include ${CMAKE_BINARY_DIR}/third_party_geographic)
file(WRITE ${rw_geographic_include}/GeographicLib/Config.h.new
"#define GEOGRAPHICLIB_VERSION_STRING \"${rw_geographic_version}\"
#define GEOGRAPHICLIB_HAVE_LONG_DOUBLE 1
#define GEOGRAPHICLIB_WORDS_BIGENDIAN 0
#define GEOGRAPHICLIB_PRECISION 2
#define GEOGRAPHICLIB_SHARED_LIB 0
")
file(COPY_FILE ${rw_geographic_include}/GeographicLib/Config.h.new
  ${rw_geographic_include}/GeographicLib/Config.h ONLY_IF_DIFFERENT)
set(rw_geographic_parts Math Utility Geodesic GeodesicLine Geocentric LocalCartesian DMS TransverseMercator PolarStereographic MGRS UTMUPS)
list(TRANSFORM rw_geographic_parts REPLACE "(.+)" "${rw_sources}/geographiclib/src/\\1.cpp"
  OUTPUT_VARIABLE rw_geographic_sources)
rw_source_library(geographic ${rw_sources}/geographiclib/include ${rw_geographic_sources})
target_include_directories(rw_geographic SYSTEM PUBLIC ${rw_geographic_include})

rw_source_library(pugixml ${rw_sources}/pugixml/src ${rw_sources}/pugixml/src/pugixml.cpp)

if(RAILWRIGHT_TESTS)
  set(BUILD_GMOCK OFF)
  set(INSTALL_GTEST OFF)
  add_subdirectory(/usr/src/googletest ${CMAKE_BINARY_DIR}/googletest EXCLUDE_FROM_ALL)
  target_compile_options(gtest PRIVATE -w -O1)
  add_library(rw_gtest_main INTERFACE)
  target_link_libraries(rw_gtest_main INTERFACE gtest_main gtest)
  add_library(rw::gtest_main ALIAS rw_gtest_main)
endif()
