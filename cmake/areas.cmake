# How the house is cut into static libraries, one a folder ("area"). An area links only the areas below it, so a header
# of a higher area cannot even be used by mistake without the include gate (tests/gates) noticing.

# Floating point: no contraction and no fast-math anywhere, so that every machine prints the same digits.
add_library(likeleaf_flags INTERFACE)
target_compile_options(likeleaf_flags INTERFACE -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wno-sign-conversion
                       -Wnon-virtual-dtor -Woverloaded-virtual -Werror -ffp-contract=off)
if(LIKELEAF_SANITIZE)
  target_compile_options(likeleaf_flags INTERFACE -fsanitize=address,undefined -fno-omit-frame-pointer
                         -fno-sanitize-recover=undefined -Wno-maybe-uninitialized)
  target_link_options(likeleaf_flags INTERFACE -fsanitize=address,undefined)
endif()

# likeleaf_area(NAME DIR [USES areas...] [PRIVATE libs...])
# Sources are globbed (CONFIGURE_DEPENDS): a new .cpp in an area's folder needs no list to be edited.
function(likeleaf_area name dir)
  cmake_parse_arguments(A "" "" "USES;PRIVATE;PUBLIC" ${ARGN})
  file(GLOB sources CONFIGURE_DEPENDS ${dir}/*.cpp)
  if(sources)
    add_library(likeleaf_${name} STATIC ${sources})
    set(kind PUBLIC)
    target_link_libraries(likeleaf_${name} PRIVATE ${A_PRIVATE})
  else()
    add_library(likeleaf_${name} INTERFACE)
    set(kind INTERFACE)
  endif()
  target_include_directories(likeleaf_${name} ${kind} ${PROJECT_SOURCE_DIR})
  target_link_libraries(likeleaf_${name} ${kind} likeleaf_flags ${A_PUBLIC})
  foreach(used ${A_USES})
    target_link_libraries(likeleaf_${name} ${kind} likeleaf_${used})
  endforeach()
endfunction()
