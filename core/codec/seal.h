#pragma once
// The seal: canonical texts (JSON, sorted keys, no spaces, whole numbers only, UTF-8 bytes as typed) and their SHA-256.
//
// A digest of a plan or a key is over the text as it was written at the seal. That text goes with the value (`text`),
// into the book and the bundle and back, and is never made anew from the structs: a program with a key more would
// otherwise call every earlier seal broken.
#include <string>

#include "core/base/digest.h"
#include "core/domain/trial.h"

namespace likeleaf {

/// Seals: writes the texts of both as this program writes them, and the two digests over them into the plan. Neither
/// digest is in the plan's text: two sealings of one plan with two keys differ in the key's digest alone.
void take_digests(SealedPlan& sealed, Key& key);
/// Over the text as kept; a text that was never written has the digest of nothing.
Digest plan_digest(const SealedPlan& sealed);
Digest key_digest(const Key& key);

/// Canonical text of a sheet's content (no times but the lock's, no digest, no guess): what is digested at lock. Sheets
/// are kept as rows, so this is made from them each time; a key that is new in sheets is absent at its default
/// (codec.h).
std::string sheet_text(const Sheet& sheet);
Digest sheet_digest(const Sheet& sheet);
/// Over the locked sheets' digests (64 hexadecimal digits each, one after the other) in the order of serving ids.
Digest sheets_digest(const Trial& trial);

}  // namespace likeleaf
