#pragma once
// A report as it was handed out, kept whole: next year it opens as it was made, whatever the program says by then.
#include <string>

#include "core/base/clock.h"
#include "core/base/id.h"

namespace likeleaf {

struct Trial;

struct MadeReport {
  IdOf<MadeReport> id;
  IdOf<Trial> trial;
  Moment made;
  std::string program;   ///< with its version: "Likeleaf 0.1.0"
  std::string title;     ///< of the document
  std::string form;      ///< how it was handed out: "PDF", "HTML"
  std::string document;  ///< text in the shape of core/report/document_json.h; empty in lists
};

}  // namespace likeleaf
