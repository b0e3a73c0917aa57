# Compiles text files into core, so that it finds lexicon, schemas and samples by name ("resources/lexicon.json").
function(likeleaf_embed target)
  set(files)
  foreach(dir ${ARGN})
    file(GLOB_RECURSE found CONFIGURE_DEPENDS ${dir}/*.json ${dir}/*.sql ${dir}/*.txt)
    list(APPEND files ${found})
  endforeach()
  set(out ${CMAKE_CURRENT_BINARY_DIR}/${target}.cpp)
  add_custom_command(OUTPUT ${out}
    COMMAND ${CMAKE_COMMAND} -DOUT=${out} -DROOT=${PROJECT_SOURCE_DIR} "-DFILES=${files}" -P ${PROJECT_SOURCE_DIR}/core/embed_files.cmake
    DEPENDS ${files} ${PROJECT_SOURCE_DIR}/core/embed_files.cmake VERBATIM)
  add_library(${target} STATIC ${out})
  target_include_directories(${target} PRIVATE ${PROJECT_SOURCE_DIR})
  set_target_properties(${target} PROPERTIES POSITION_INDEPENDENT_CODE ON)
endfunction()
