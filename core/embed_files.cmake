# Script of likeleaf_embed: writes every file as a hexadecimal byte array and one table of names.
set(body "// Made by core/embed_files.cmake.\n#include <cstddef>\n#include <string_view>\nnamespace likeleaf::detail {\n")
set(table "")
set(i 0)
foreach(file ${FILES})
  file(RELATIVE_PATH name ${ROOT} ${file})
  file(READ ${file} hex HEX)
  string(REGEX REPLACE "([0-9a-f][0-9a-f])" "0x\\1," bytes "${hex}")
  string(APPEND body "static const unsigned char f${i}[] = {${bytes}0};\n")
  string(APPEND table "  {\"${name}\", {reinterpret_cast<const char*>(f${i}), sizeof f${i} - 1}},\n")
  math(EXPR i "${i}+1")
endforeach()
string(APPEND body "struct EmbeddedFile { std::string_view name, bytes; };\nextern const EmbeddedFile embedded_files[];\n"
  "extern const std::size_t embedded_count;\nconst EmbeddedFile embedded_files[] = {\n${table}  {{}, {}}};\n"
  "const std::size_t embedded_count = ${i};\n}\n")
file(WRITE ${OUT} "${body}")
