# Warnings and code generation, the same for every target of ours: link stringwright_options.
if(NOT DEFINED CMAKE_COMPILE_WARNING_AS_ERROR)
  set(CMAKE_COMPILE_WARNING_AS_ERROR ON)
endif()

# assert stays on everywhere but in a release.
set(CMAKE_CXX_FLAGS_RELWITHDEBINFO "-O2 -g" CACHE STRING "" FORCE)
set(CMAKE_CXX_FLAGS_RELEASE "-O2 -DNDEBUG" CACHE STRING "" FORCE)

add_library(stringwright_options INTERFACE)
target_compile_options(stringwright_options INTERFACE
  -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wno-sign-conversion -Wnon-virtual-dtor
  -Wold-style-cast
  # Records are made with designated initialisers; a field left out has its default on purpose.
  -Wno-missing-field-initializers
  # Same job, same bytes: no fused multiply-add where the processor has one.
  -ffp-contract=off)
if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
  # Wrong alarms of GCC 12 on std::string and std::optional at -O2; clang and the sanitizers look too.
  target_compile_options(stringwright_options INTERFACE
    -Wno-restrict -Wno-maybe-uninitialized -Wno-array-bounds -Wno-stringop-overflow
    -Wno-stringop-overread)
endif()
target_compile_definitions(stringwright_options INTERFACE
  $<$<NOT:$<CONFIG:Release>>:_GLIBCXX_ASSERTIONS>)
target_include_directories(stringwright_options INTERFACE
  "${CMAKE_SOURCE_DIR}/src" "${CMAKE_BINARY_DIR}/generated")

# Load only the shared libraries and keep only the functions that a program uses: it starts faster.
add_compile_options($<$<CONFIG:Release>:-ffunction-sections> $<$<CONFIG:Release>:-fdata-sections>)
add_link_options(-Wl,--as-needed $<$<CONFIG:Release>:-Wl,--gc-sections>)
