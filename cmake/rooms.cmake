# SPDX-License-Identifier: MIT
# railwright_cold(TARGET): code that reads and writes, not computes, in a release build. -O1 makes it ready a quarter sooner,
# and nobody can tell it from -O3 when it runs.
function(railwright_cold target)
  target_compile_options(${target} PRIVATE $<$<CONFIG:Release>:-O1>)
endfunction()

# railwright_together(TARGET [APART a.cpp b.cpp]): six files share what they include, which takes longer to compile than what is written in
# them. Their unnamed namespaces are then one; files that would collide there stand APART.
function(railwright_together target)
  cmake_parse_arguments(FILES "" "" "APART" ${ARGN})
  set_target_properties(${target} PROPERTIES UNITY_BUILD ON UNITY_BUILD_BATCH_SIZE 6)
  if(FILES_APART)
    set_source_files_properties(${FILES_APART} PROPERTIES SKIP_UNITY_BUILD_INCLUSION ON)
  endif()
endfunction()

# engine_room(NAME grade DEPENDS measure job [LIBRARIES rw::json ...] [COLD] [APART a.cpp ...] [TESTS_APART a_test.cpp ...])
#
# Declares the room in the current folder: a static library `railwright_<name>` from every .cpp beside the
# CMakeLists.txt, and, with RAILWRIGHT_TESTS, the program `test_<name>` from tests/<name>/*_test.cpp.
function(engine_room)
  cmake_parse_arguments(ROOM "COLD" "NAME" "DEPENDS;LIBRARIES;TEST_LIBRARIES;APART;TESTS_APART" ${ARGN})
  file(GLOB sources CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/*.cpp)
  set(target railwright_${ROOM_NAME})
  if(sources)
    add_library(${target} STATIC ${sources})
    set(kind PUBLIC)
    target_link_libraries(${target} PRIVATE railwright_flags)
    target_include_directories(${target} PUBLIC ${CMAKE_SOURCE_DIR})
  else()
    add_library(${target} INTERFACE)
    set(kind INTERFACE)
    target_include_directories(${target} INTERFACE ${CMAKE_SOURCE_DIR})
  endif()
  foreach(dependency IN LISTS ROOM_DEPENDS)
    target_link_libraries(${target} ${kind} railwright_${dependency})
  endforeach()
  target_link_libraries(${target} ${kind} rw::expected ${ROOM_LIBRARIES})
  if(ROOM_COLD AND sources)
    railwright_cold(${target})
  endif()
  if(sources)
    list(TRANSFORM ROOM_APART PREPEND ${CMAKE_CURRENT_SOURCE_DIR}/)
    railwright_together(${target} APART ${ROOM_APART})
  endif()

  file(GLOB tests CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/tests/${ROOM_NAME}/*_test.cpp)
  if(RAILWRIGHT_TESTS AND tests)
    add_executable(test_${ROOM_NAME} ${tests})
    target_link_libraries(test_${ROOM_NAME} PRIVATE railwright_flags ${target} ${ROOM_TEST_LIBRARIES} rw::gtest_main)
    target_compile_definitions(test_${ROOM_NAME} PRIVATE RAILWRIGHT_SOURCE_DIR="${CMAKE_SOURCE_DIR}")
    list(TRANSFORM ROOM_TESTS_APART PREPEND ${CMAKE_SOURCE_DIR}/tests/${ROOM_NAME}/)
    railwright_together(test_${ROOM_NAME} APART ${ROOM_TESTS_APART})
    railwright_add_test(${ROOM_NAME})
  endif()
endfunction()

# Under Emscripten the program is one for node, with the real file system.
function(railwright_node_program target)
  if(EMSCRIPTEN)
    target_link_options(${target} PRIVATE -sEXIT_RUNTIME=1 -sENVIRONMENT=node -sNODERAWFS=1 -sTOTAL_STACK=4MB
      -sINITIAL_MEMORY=64MB)
    set_target_properties(${target} PROPERTIES SUFFIX .cjs)
  endif()
endfunction()

# Registers test_<name>; it leaves its report in <build>/reports/<name>.json, where ./check counts.
#
# What is tested is compiled as it is used; the tests around it are compiled to be ready soon. Linking with -O1 leaves out Emscripten's
# pass over the whole program, which takes longer than the tests.
function(railwright_add_test name)
  railwright_node_program(test_${name})
  if(EMSCRIPTEN)
    target_compile_options(test_${name} PRIVATE -O0)
    target_link_options(test_${name} PRIVATE -O1)
  elseif(CMAKE_BUILD_TYPE STREQUAL Release)
    target_compile_options(test_${name} PRIVATE -O0)
  endif()
  set(report --gtest_output=json:${CMAKE_BINARY_DIR}/reports/${name}.json)
  if(EMSCRIPTEN)
    add_test(NAME ${name} COMMAND node --no-experimental-fetch $<TARGET_FILE:test_${name}> ${report})
  else()
    add_test(NAME ${name} COMMAND test_${name} ${report})
  endif()
endfunction()
