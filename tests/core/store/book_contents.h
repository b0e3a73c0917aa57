#pragma once
// What is in a book, in lines that can be held against those of a frozen one.
#include <sstream>
#include <string>

#include "core/codec/trial_document.h"
#include "core/session/session.h"

namespace likeleaf::test {

/// One line a trial: number, stage, sheets, digest of its whole text.
inline std::string contents(Session& session) {
  std::ostringstream out;
  for (const auto& row : session.ledger()) {
    const auto trial = session.read(row.id).value();
    int stamps = 0, locked = 0;
    for (const auto& [id, brew] : trial->brews) stamps += static_cast<int>(brew->stamps.size());
    const auto live = live_servings(*trial);
    for (const auto* serving : live) {
      const auto sheet = trial->sheets.find(serving->id);
      if (sheet != trial->sheets.end() && sheet->second->locked) ++locked;
    }
    out << "trial " << row.number << ", stage " << static_cast<int>(row.stage) << ", " << locked << " of "
        << live.size() << " sheets, " << trial->brews.size() << " brews, " << stamps << " stamps, "
        << session.reports(row.id).value().size() << " reports, "
        << trial_digest(*trial, session.registers(), session.attributes()) << '\n';
  }
  out << session.registers().lots.size() << " lots, " << session.registers().assessors.size() << " assessors, "
      << session.attributes().size() << " attributes\n";
  return out.str();
}

}  // namespace likeleaf::test
