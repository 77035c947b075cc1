# Targets for the rooms of src/ and for the programs around them.

# Arrows from src/layers.toml, as STRINGWRIGHT_DEPS_<room>.
set(layers_file "${CMAKE_SOURCE_DIR}/src/layers.toml")
set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS "${layers_file}")
file(READ "${layers_file}" layers)
string(REGEX MATCHALL "\n[a-z]+ = \\[[^]]*\\]" arrows "${layers}")
foreach(arrow IN LISTS arrows)
  string(REGEX MATCH "\n([a-z]+) = \\[(.*)\\]" unused "${arrow}")
  set(name "${CMAKE_MATCH_1}")
  string(REGEX MATCHALL "[a-z]+" STRINGWRIGHT_DEPS_${name} "${CMAKE_MATCH_2}")
  set(STRINGWRIGHT_KNOWN_${name} ON)
endforeach()

# Everything, for tests, cases and benchmarks.
add_library(stringwright_all INTERFACE)

# stringwright_room(NAME <room> [LIBS <target>...] [TEST_ROOMS <room>...] [DATA <extension>...])
#
# Static library room_<room> from src/<room>/**.cpp, and the executable test_<room> from its
# *_test.cpp. A room without sources is an interface library, so that others can build. LIBS are
# external; TEST_ROOMS are rooms that only its tests use. With DATA, the files data/<room>/** that
# end so are compiled in and found through "<room>/data_files.hpp".
function(stringwright_room)
  cmake_parse_arguments(PARSE_ARGV 0 room "" "NAME" "LIBS;TEST_ROOMS;DATA")
  set(name "${room_NAME}")
  if(NOT STRINGWRIGHT_KNOWN_${name})
    message(FATAL_ERROR "room ${name} is not in src/layers.toml")
  endif()
  set(target "room_${name}")

  file(GLOB_RECURSE sources CONFIGURE_DEPENDS "${CMAKE_SOURCE_DIR}/src/${name}/*.cpp")
  set(tests ${sources})
  list(FILTER tests INCLUDE REGEX "_test\\.cpp$")
  list(FILTER sources EXCLUDE REGEX "_test\\.cpp$")
  list(REMOVE_ITEM sources "${CMAKE_SOURCE_DIR}/src/${name}/main.cpp")
  if(room_DATA)
    stringwright_embed(ROOM ${name} EXTENSIONS ${room_DATA} SOURCE embedded)
    list(APPEND sources "${embedded}")
  endif()

  list(TRANSFORM STRINGWRIGHT_DEPS_${name} PREPEND "room_" OUTPUT_VARIABLE upstream)
  if(sources)
    add_library(${target} STATIC ${sources})
    target_link_libraries(${target} PRIVATE stringwright_options PUBLIC ${upstream} ${room_LIBS})
  else()
    add_library(${target} INTERFACE)
    target_link_libraries(${target} INTERFACE ${upstream} ${room_LIBS})
  endif()
  target_link_libraries(stringwright_all INTERFACE ${target})

  if(tests AND BUILD_TESTING)
    list(TRANSFORM room_TEST_ROOMS PREPEND "room_")
    stringwright_test(NAME ${name} SOURCES ${tests} LIBS ${target} ${room_TEST_ROOMS})
  endif()
endfunction()

# stringwright_test(NAME <name> SOURCES <file>... LIBS <target>...): GoogleTest executable
# test_<name>; ctest runs and counts each test of it.
function(stringwright_test)
  cmake_parse_arguments(PARSE_ARGV 0 test "" "NAME" "SOURCES;LIBS")
  set(target "test_${test_NAME}")
  add_executable(${target} ${test_SOURCES})
  target_link_libraries(${target} PRIVATE
    stringwright_options stringwright_sanitizer ${test_LIBS}
    GTest::gmock GTest::gtest GTest::gtest_main rapidcheck)
  target_compile_definitions(${target} PRIVATE STRINGWRIGHT_SOURCE_DIR="${CMAKE_SOURCE_DIR}")
  gtest_discover_tests(${target}
    TEST_PREFIX "${test_NAME}." DISCOVERY_MODE PRE_TEST DISCOVERY_TIMEOUT 60
    WORKING_DIRECTORY "${CMAKE_SOURCE_DIR}" PROPERTIES TIMEOUT 300)
endfunction()

# stringwright_program(NAME <program> SOURCE <file or pattern> ROOMS <room>...|all): nothing without
# the file.
function(stringwright_program)
  cmake_parse_arguments(PARSE_ARGV 0 program "" "NAME;SOURCE" "ROOMS")
  file(GLOB source CONFIGURE_DEPENDS "${CMAKE_SOURCE_DIR}/${program_SOURCE}")
  if(NOT source)
    return()
  endif()
  list(TRANSFORM program_ROOMS PREPEND "room_")
  list(TRANSFORM program_ROOMS REPLACE "^room_all$" "stringwright_all")
  add_executable(${program_NAME} ${source})
  target_link_libraries(${program_NAME} PRIVATE
    stringwright_options stringwright_sanitizer ${program_ROOMS})
endfunction()

# stringwright_programs(FOLDER bench|fuzz PREFIX <prefix> WHEN <bool>): one program per file.
function(stringwright_programs)
  cmake_parse_arguments(PARSE_ARGV 0 programs "" "FOLDER;PREFIX;WHEN" "")
  if(NOT programs_WHEN)
    return()
  endif()
  file(GLOB sources CONFIGURE_DEPENDS "${CMAKE_SOURCE_DIR}/${programs_FOLDER}/*.cpp")
  add_custom_target(${programs_FOLDER})
  foreach(source IN LISTS sources)
    cmake_path(GET source STEM name)
    set(target "${programs_PREFIX}${name}")
    add_executable(${target} ${source})
    target_link_libraries(${target} PRIVATE stringwright_options stringwright_all)
    target_compile_definitions(${target} PRIVATE STRINGWRIGHT_SOURCE_DIR="${CMAKE_SOURCE_DIR}")
    if(programs_FOLDER STREQUAL "bench")
      find_package(benchmark REQUIRED)
      target_link_libraries(${target} PRIVATE benchmark::benchmark benchmark::benchmark_main)
      # Some measure the program from outside, as a person waits for it.
      if(TARGET stringwright)
        target_compile_definitions(${target} PRIVATE STRINGWRIGHT_BIN="$<TARGET_FILE:stringwright>")
        add_dependencies(${target} stringwright)
      endif()
    else()
      target_link_options(${target} PRIVATE -fsanitize=fuzzer)
    endif()
    set_target_properties(${target} PROPERTIES
      RUNTIME_OUTPUT_DIRECTORY "${CMAKE_BINARY_DIR}/${programs_FOLDER}")
    add_dependencies(${programs_FOLDER} ${target})
  endforeach()
endfunction()

# What pango and fontconfig keep until exit is no leak of ours. Empty without sanitizers.
add_library(stringwright_sanitizer INTERFACE)
if(CMAKE_CXX_FLAGS MATCHES "-fsanitize=[a-z,]*address")
  add_library(stringwright_leaks OBJECT "${CMAKE_SOURCE_DIR}/cmake/leak_suppressions.cpp")
  target_link_libraries(stringwright_sanitizer INTERFACE
    stringwright_leaks $<TARGET_OBJECTS:stringwright_leaks>)
endif()
