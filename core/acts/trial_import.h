#pragma once
// What a reader of bundles or of paper tables hands to a book.
#include <string>
#include <vector>

#include "core/domain/attribute.h"
#include "core/domain/register.h"
#include "core/domain/trial.h"

namespace likeleaf {

/// A trial as it comes from a bundle or from paper tables, with the registers it needs.
struct TrialImport {
  Trial trial;
  Registers registers;
  std::vector<Attribute> attributes;
  /// trial_digest() (trial_document.h) of this trial. Same id and same digest as the book's own trial: skipped.
  std::string digest;
};

}  // namespace likeleaf
