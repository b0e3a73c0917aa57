#pragma once
// One trial as one canonical document: what a bundle carries, and what tells two copies of a trial apart.
#include <string>
#include <vector>

#include "core/domain/attribute.h"
#include "core/domain/register.h"
#include "core/domain/trial.h"

namespace likeleaf {

/// Canonical text of a trial with the records it needs. A draft carries the records of the book that its plan refers
/// to; a sealed trial carries them as they were at the seal, whatever the book says now. Until unmask nothing of the
/// keyed side is in it (key, seed, salt, brews, served temperatures, amendments of brews); afterwards all of it is, so
/// that whoever reads it can recompute the digests. The uncorrected clock is kept for stamps only.
std::string trial_text(const Trial& trial, const Registers& book, const std::vector<Attribute>& book_attributes);

/// SHA-256 of trial_text() in hexadecimal: TrialImport::digest of the bundle that would be written now.
std::string trial_digest(const Trial& trial, const Registers& book, const std::vector<Attribute>& book_attributes);

/// The records of a book that a plan refers to, in the book's order.
Registers registers_of(const Plan& plan, const Registers& book);
/// The attributes of a book that a plan names, in the plan's order.
std::vector<Attribute> attributes_of(const Plan& plan, const std::vector<Attribute>& book_attributes);

}  // namespace likeleaf
