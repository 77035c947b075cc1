# Tests that use everything: each tests/*_test.cpp is one executable.
stringwright_program(NAME check-layers SOURCE tools/check_layers.cpp ROOMS)
if(TARGET check-layers)
  target_link_libraries(check-layers PRIVATE tomlplusplus::tomlplusplus)
  add_test(NAME layers COMMAND check-layers "${CMAKE_SOURCE_DIR}/src")
endif()

file(GLOB sources CONFIGURE_DEPENDS "${CMAKE_SOURCE_DIR}/tests/*_test.cpp")
foreach(source IN LISTS sources)
  cmake_path(GET source STEM name)
  string(REGEX REPLACE "_test$" "" name "${name}")
  if(TARGET room_${name})
    message(FATAL_ERROR "${source}: a room has this name; call the file otherwise")
  endif()
  stringwright_test(NAME ${name} SOURCES "${source}" LIBS stringwright_all)
  set(target "test_${name}")
  target_link_libraries(${target} PRIVATE
    tomlplusplus::tomlplusplus nlohmann_json::nlohmann_json fmt::fmt)
  # A program is built before the test that runs it.
  foreach(pair "stringwright=STRINGWRIGHT_BIN" "run-cases=RUN_CASES_BIN"
               "check-layers=CHECK_LAYERS_BIN")
    string(REPLACE "=" ";" pair "${pair}")
    list(POP_FRONT pair program definition)
    if(TARGET ${program})
      target_compile_definitions(${target} PRIVATE ${definition}="$<TARGET_FILE:${program}>")
      add_dependencies(${target} ${program})
    endif()
  endforeach()
endforeach()

if(TARGET run-cases)
  foreach(folder published rules editions)
    if(IS_DIRECTORY "${CMAKE_SOURCE_DIR}/cases/${folder}")
      add_test(NAME cases.${folder} COMMAND run-cases "cases/${folder}"
               WORKING_DIRECTORY "${CMAKE_SOURCE_DIR}")
    endif()
  endforeach()
  add_test(NAME pages COMMAND run-cases --pages "${CMAKE_SOURCE_DIR}")
endif()
