# stringwright_embed(ROOM <room> EXTENSIONS <ext>... SOURCE <variable>)
#
# Compiles the text files data/<room>/** that end in one of the extensions into the room. Writes the
# header generated/<room>/data_files.hpp and a source, whose path comes back in <variable>. A new,
# gone or changed file is seen by the next build.
function(stringwright_embed)
  cmake_parse_arguments(PARSE_ARGV 0 embed "" "ROOM;SOURCE" "EXTENSIONS")
  set(STRINGWRIGHT_ROOM "${embed_ROOM}")
  set(folder "${CMAKE_SOURCE_DIR}/data/${embed_ROOM}")
  set(generated "${CMAKE_BINARY_DIR}/generated/${embed_ROOM}")

  list(TRANSFORM embed_EXTENSIONS PREPEND "${folder}/*." OUTPUT_VARIABLE patterns)
  file(GLOB_RECURSE files CONFIGURE_DEPENDS ${patterns})
  list(SORT files)

  configure_file("${CMAKE_SOURCE_DIR}/cmake/data_files.hpp.in" "${generated}/data_files.hpp" @ONLY)
  # The list stands in a file, so that a changed list is a changed dependency.
  list(JOIN files "\n" lines)
  file(CONFIGURE OUTPUT "${generated}/data_files.list" CONTENT "${lines}" @ONLY)

  set(source "${generated}/data_files.cpp")
  add_custom_command(
    OUTPUT "${source}"
    COMMAND "${CMAKE_COMMAND}" -D ROOM=${embed_ROOM} -D FOLDER=${folder}
            -D LIST=${generated}/data_files.list -D OUTPUT=${source}
            -P "${CMAKE_SOURCE_DIR}/cmake/embed_script.cmake"
    DEPENDS ${files} "${generated}/data_files.list" "${CMAKE_SOURCE_DIR}/cmake/embed_script.cmake"
    COMMENT "Embedding data/${embed_ROOM}"
    VERBATIM)
  # The sources are text of any length in one literal, which pedantic clang remarks on.
  set_source_files_properties("${source}" PROPERTIES
    COMPILE_OPTIONS "$<$<CXX_COMPILER_ID:Clang>:-Wno-overlength-strings>" SKIP_LINTING ON)
  set(${embed_SOURCE} "${source}" PARENT_SCOPE)
endfunction()
