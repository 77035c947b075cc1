# The version is the newest tag v<major>.<minor>.<patch>; without tags or git it is 0.1.0.
set(STRINGWRIGHT_VERSION "0.1.0")
execute_process(
  COMMAND git describe --tags --match "v[0-9]*"
  WORKING_DIRECTORY "${CMAKE_CURRENT_LIST_DIR}/.."
  OUTPUT_VARIABLE described OUTPUT_STRIP_TRAILING_WHITESPACE ERROR_QUIET RESULT_VARIABLE status)
if(status EQUAL 0 AND described MATCHES "^v([0-9]+\\.[0-9]+\\.[0-9]+.*)$")
  set(STRINGWRIGHT_VERSION "${CMAKE_MATCH_1}")
endif()
string(REGEX MATCH "^[0-9]+\\.[0-9]+\\.[0-9]+" STRINGWRIGHT_VERSION_NUMBER "${STRINGWRIGHT_VERSION}")

configure_file("${CMAKE_CURRENT_LIST_DIR}/version.hpp.in"
               "${CMAKE_BINARY_DIR}/generated/base/version.hpp" @ONLY)
