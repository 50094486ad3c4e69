# Writes a C++ source that holds the page's files, each compressed: cmake -DFOLDER= -DOUTPUT= -P embed.cmake
file(GLOB_RECURSE files RELATIVE ${FOLDER} ${FOLDER}/*)
list(SORT files)
set(arrays "")
set(table "")
set(number 0)
foreach(file ${files})
  execute_process(COMMAND gzip -9nc ${FOLDER}/${file} OUTPUT_FILE ${OUTPUT}.part RESULT_VARIABLE failed)
  if(failed)
    message(FATAL_ERROR "gzip could not compress ${file}")
  endif()
  file(READ ${OUTPUT}.part hex HEX)
  file(SHA256 ${OUTPUT}.part tag)
  string(SUBSTRING ${tag} 0 16 tag)
  string(LENGTH "${hex}" digits)
  math(EXPR count "${digits} / 2")
  string(REGEX REPLACE "([0-9a-f][0-9a-f])" "\\\\x\\1" escaped "${hex}")
  # A line of some hundred bytes each: compilers dislike lines without end.
  string(REGEX REPLACE "((\\\\x[0-9a-f][0-9a-f])(\\\\x[0-9a-f][0-9a-f])?(\\\\x[0-9a-f][0-9a-f])?(\\\\x[0-9a-f][0-9a-f])?(\\\\x[0-9a-f][0-9a-f])?(\\\\x[0-9a-f][0-9a-f])?(\\\\x[0-9a-f][0-9a-f])?(\\\\x[0-9a-f][0-9a-f])?)" "\"\\1\"\n" lines "${escaped}")
  string(APPEND arrays "constexpr char kFile${number}[] =\n${lines};\n")
  string(APPEND table "    {\"${file}\", {kFile${number}, ${count}}, \"${tag}\"},\n")
  math(EXPR number "${number} + 1")
endforeach()
file(REMOVE ${OUTPUT}.part)
file(WRITE ${OUTPUT}.new "// Made by embed.cmake of the files in lib/server/page.
#include \"server/page_files.hpp\"

#include <array>

namespace farflung::server {
namespace {

${arrays}
constexpr std::array<PageFile, ${number}> kFiles = {{
${table}}};

}  // namespace

std::span<const PageFile> page_files() { return kFiles; }

}  // namespace farflung::server
")
file(RENAME ${OUTPUT}.new ${OUTPUT})
