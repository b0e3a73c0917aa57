#pragma once
// One trial as a JSON file to carry between benches. resources/bundle.schema.json publishes its shape.
#include <string>
#include <vector>

#include "core/domain/attribute.h"
#include "core/domain/register.h"
#include "core/domain/trial.h"

namespace likeleaf::exchange {

inline constexpr const char* bundle_format = "likeleaf-bundle";
inline constexpr int bundle_version = 1;

/// The bundle's text: readable (one space of indent, sorted keys, whole numbers only) and the same every time. What it
/// carries, and what stays blind until unmask, says trial_text() (core/codec/trial_document.h). A trial that is not
/// sealed takes the records it refers to from the book given. `made_by` names the program and its version.
std::string bundle_text(const Trial& trial, const Registers& book, const std::vector<Attribute>& book_attributes,
                        const std::string& made_by = "Likeleaf 0.1.0");

}  // namespace likeleaf::exchange
