#include "core/codec/seal.h"

#include "core/codec/value_text.h"

namespace likeleaf {

void take_digests(SealedPlan& sealed, Key& key) {
  key.text.clear();
  key.text = codec::text_of(key);
  sealed.plan_digest = {};
  sealed.key_digest = {};
  sealed.text.clear();
  sealed.text = codec::text_of(sealed);
  sealed.plan_digest = plan_digest(sealed);
  sealed.key_digest = key_digest(key);
}

Digest plan_digest(const SealedPlan& sealed) {
  return Digest::of(sealed.text);
}
Digest key_digest(const Key& key) {
  return Digest::of(key.text);
}

std::string sheet_text(const Sheet& sheet) {
  Sheet content = sheet;
  content.started.reset();
  content.digest = {};
  content.guess.reset();
  return codec::text_of(content);
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
