# SPDX-License-Identifier: MIT
# railwright_embed(TARGET railwright_data NAMESPACE railwright::data FILES a.json b.json)
#
# Compiles the files into the target. The generated header `<target>_embedded.h` declares, in the namespace,
# `std::span<const EmbeddedFile> embedded_files()`: file names without folders, in byte order, and their bytes.
function(railwright_embed)
  cmake_parse_arguments(EMBED "" "TARGET;NAMESPACE" "FILES" ${ARGN})
  set(stem ${CMAKE_BINARY_DIR}/generated/${EMBED_TARGET}_embedded)
  add_custom_command(
    OUTPUT ${stem}.cpp ${stem}.h
    COMMAND python3 ${CMAKE_SOURCE_DIR}/tools/embed.py --namespace ${EMBED_NAMESPACE} --out ${stem} ${EMBED_FILES}
    DEPENDS ${CMAKE_SOURCE_DIR}/tools/embed.py ${EMBED_FILES}
    COMMENT "Embedding the files of ${EMBED_TARGET}"
    VERBATIM)
  target_sources(${EMBED_TARGET} PRIVATE ${stem}.cpp ${stem}.h)
  # A compiler need not promise string literals as long as ours; both of ours take them.
  set_source_files_properties(${stem}.cpp PROPERTIES COMPILE_OPTIONS -Wno-overlength-strings)
endfunction()
