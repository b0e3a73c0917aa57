#pragma once
// The seal: canonical texts (JSON, sorted keys, no spaces, whole numbers only, UTF-8 bytes as typed) and their SHA-256.
#include <string>
#include <string_view>

#include "core/base/digest.h"
#include "core/base/result.h"
#include "core/domain/trial.h"

namespace likeleaf {

/// Canonical text of the resolved plan; what the plan digest is over, and what the store keeps for ever. The two
/// digests are not in it: whoever keeps this text keeps them beside it, and read_sealed(plan_text(s)) has them empty.
std::string plan_text(const SealedPlan& sealed);
/// Canonical text of a draft, for the store (same shape without the resolved records).
std::string draft_text(const Plan& plan);
/// Canonical text of the key with seed and salt: for the store and the key digest only.
std::string key_text(const Key& key);
/// Canonical text of a sheet's content (no times but the lock's, no digest, no guess): what is digested at lock.
std::string sheet_text(const Sheet& sheet);

Result<Plan> read_draft(std::string_view text);
Result<SealedPlan> read_sealed(std::string_view text);
Result<Key> read_key(std::string_view text);

Digest plan_digest(const SealedPlan& sealed);
Digest key_digest(const Key& key);
Digest sheet_digest(const Sheet& sheet);
/// Over the locked sheets' digests (64 hexadecimal digits each, one after the other) in the order of serving ids.
Digest sheets_digest(const Trial& trial);

}  // namespace likeleaf
