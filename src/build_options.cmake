# SPDX-License-Identifier: GPL-3.0-or-later
# Warnings, sanitizers and arithmetic rules, as one interface target that every library links.
add_library(ringfall_options INTERFACE)
target_include_directories(ringfall_options INTERFACE ${CMAKE_CURRENT_SOURCE_DIR}/src)
target_compile_options(ringfall_options INTERFACE
  -Wall -Wextra -Wpedantic -Wshadow -Wold-style-cast -Wnon-virtual-dtor -Woverloaded-virtual
  -Wcast-align -Wfloat-conversion -Wdouble-promotion -Wformat=2 -Wimplicit-fallthrough
  # GCC 12 warns of std::optional's unset storage where it is never read.
  $<$<CXX_COMPILER_ID:GNU>:-Wno-maybe-uninitialized>
  # Results stay IEEE and reproducible; these two only drop what no code here reads (errno, FP traps),
  # and without them loops over samples do not vectorise.
  -fno-math-errno -fno-trapping-math)
if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU" AND CMAKE_CXX_COMPILER_VERSION VERSION_LESS 13)
  # False alarm on "text" + std::string(...) when inlined (GCC bug 105651, mended in 13).
  target_compile_options(ringfall_options INTERFACE -Wno-restrict)
endif()
if(RINGFALL_WERROR)
  target_compile_options(ringfall_options INTERFACE -Werror)
endif()
if(RINGFALL_ASAN_UBSAN)
  set(flags -fsanitize=address,undefined,float-cast-overflow -fno-sanitize-recover=all -fno-omit-frame-pointer)
  target_compile_options(ringfall_options INTERFACE ${flags})
  target_link_options(ringfall_options INTERFACE ${flags})
elseif(RINGFALL_TSAN)
  target_compile_options(ringfall_options INTERFACE -fsanitize=thread)
  target_link_options(ringfall_options INTERFACE -fsanitize=thread)
endif()

# ringfall_library(NAME folder-libraries... packages...): one static library from every .cpp of the folder and of its rooms;
# program/ holds what is linked with it, not into it.
function(ringfall_library name)
  file(GLOB sources CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/*.cpp ${CMAKE_CURRENT_SOURCE_DIR}/*/*.cpp)
  list(FILTER sources EXCLUDE REGEX "/program/")
  add_library(${name} STATIC ${sources})
  set_target_properties(${name} PROPERTIES UNITY_BUILD ${RINGFALL_BUILD_ONCE})
  target_link_libraries(${name} PUBLIC ringfall_options ${ARGN})
endfunction()
