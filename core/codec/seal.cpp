#include "core/codec/seal.h"

#include "core/codec/codec.h"

namespace likeleaf {

// A digest cannot be part of the text it is over, and the salted digest of the key has no place in the unsalted text of
// the plan: two sealings of one plan with two keys differ in the key's digest alone.
std::string plan_text(const SealedPlan& sealed) {
  SealedPlan bare = sealed;
  bare.plan_digest = {};
  bare.key_digest = {};
  return canonical_text(to_json(bare));
}

std::string draft_text(const Plan& plan) {
  return canonical_text(to_json(plan));
}

std::string key_text(const Key& key) {
  return canonical_text(to_json(key));
}

std::string sheet_text(const Sheet& sheet) {
  Sheet content = sheet;
  content.started.reset();
  content.digest = {};
  content.guess.reset();
  return canonical_text(to_json(content));
}

Result<Plan> read_draft(std::string_view text) {
  return parse_document(text).and_then([](const nlohmann::json& value) { return read_plan(value, ""); });
}

Result<SealedPlan> read_sealed(std::string_view text) {
  return parse_document(text).and_then([](const nlohmann::json& value) { return read_sealed_plan(value, ""); });
}

Result<Key> read_key(std::string_view text) {
  return parse_document(text).and_then([](const nlohmann::json& value) { return read_key_value(value, ""); });
}

Digest plan_digest(const SealedPlan& sealed) {
  return Digest::of(plan_text(sealed));
}
Digest key_digest(const Key& key) {
  return Digest::of(key_text(key));
}
Digest sheet_digest(const Sheet& sheet) {
  return Digest::of(sheet_text(sheet));
}

Digest sheets_digest(const Trial& trial) {
  std::string all;
  for (const auto& [serving, sheet] : trial.sheets)  // a map: in the order of serving ids
    if (sheet->locked) all += sheet->digest.hex();
  return Digest::of(all);
}

}  // namespace likeleaf
