#pragma once
// A report's document as text, for the book to keep: canonical JSON of its blocks, figures with their numbers. What is
// written reads back equal, so that a report opens as it was made by an older program.
#include <string>
#include <string_view>

#include "core/base/result.h"
#include "core/report/document.h"

namespace likeleaf::report {

/// Canonical text: {"shape":1,"meta":…,"blocks":[…]}. Two documents that say the same have the same text.
std::string document_text(const Document& document);
/// Errors: malformed, missing, too_large with the JSON pointer of the place; newer_version for a later shape.
Result<Document> read_document(std::string_view text);

}  // namespace likeleaf::report
