#include "core/wording/findings_text.h"

#include <fmt/format.h>

#include "core/base/number_text.h"
#include "core/base/text.h"
#include "core/wording/attribute_text.h"
#include "core/wording/phrases.h"
#include "core/wording/plan_text.h"

namespace likeleaf::wording {

using evidence::Findings;
using evidence::OpenReason;
using evidence::Word;

std::string headline(const Findings& findings, const SealedPlan& plan, const Style& style) {
  const bool several = findings.contrasts.size() > 1;
  std::string out;
  for (const auto& f : findings.attributes) {
    if (!f.deciding) continue;
    std::string said;
    const std::string pair = several ? fmt::format(" ({})", contrast_text(plan.plan.lever, f.contrast, style)) : "";
    switch (f.word) {
      case Word::moved:
        said = upper_first(direction(f, f.estimate)) + " " + at_b(f, plan, style, several);
        break;
      case Word::held:
        said = f.attribute.name + " holds" + pair;
        break;
      case Word::depends:
        said = f.attribute.name + (f.lots.shown ? " depends on the leaf" : " depends on the taster") + pair;
        break;
      case Word::open:
      case Word::noted:
        said = f.attribute.name + " is open" + pair;
        break;
    }
    out += (out.empty() ? "" : " ") + said + ".";
  }
  return out.empty() ? "Described, not decided." : out;
}

std::string scope_sentence(const Findings& findings, const SealedPlan& plan, const Style& style) {
  std::string out = findings.lots == 1
                        ? fmt::format("This leaf ({})", findings.lot_codes.empty() ? "" : findings.lot_codes[0])
                        : fmt::format("These {}{}leaves", findings.lots, no_break_space);
  out += fmt::format(", {}, {}, ", counted(findings.brew_pairs, "brew pair", "brew pairs"),
                     counted(findings.tasted_pairs, "tasted pair", "tasted pairs"));
  if (findings.assessors == 1)
    out += fmt::format("one taster ({})", findings.assessor_aliases.empty() ? "" : findings.assessor_aliases[0]);
  else
    out += counted(findings.assessors, "taster", "tasters");
  if (findings.tasting_temperature) out += ", at " + temperature_text(*findings.tasting_temperature, style);
  out += ".";
  if (findings.self_blinded)
    out += " Self-blinded: it speaks for this taster, these leaves and these pots, not for people in general.";
  if (findings.paper_import || plan.paper_import) out += " Read from paper tables: nothing was sealed beforehand.";
  return out;
}

std::vector<std::string> unknowns(const Findings& f, const SealedPlan& plan, const Style& style) {
  std::vector<std::string> out;
  const bool several = f.contrasts.size() > 1;
  for (const auto& a : f.attributes) {
    if (!a.deciding ||
        (a.word != Word::open && a.word != Word::depends && !(a.word == Word::moved && !a.enough_to_matter)))
      continue;
    const bool told =
        a.word == Word::open && (a.open_reason == OpenReason::not_shown || a.open_reason == OpenReason::none);
    out.push_back(fmt::format("{}: {}", a.attribute.name,
                              told ? size_clause(a, plan, style, several) + ", so more or less or nothing."
                                   : finding_text(a, plan, style, several).sentence));
  }
  std::vector<std::string> noted;
  for (const auto& a : f.attributes)
    if (!a.deciding && a.interval && (a.interval->low > 0 || a.interval->high < 0))
      noted.push_back(is_ratio(a) ? fmt::format("{} ({} times)", direction(a, a.estimate), ratio(a.estimate, style))
                                  : fmt::format("{} (by {})", direction(a, a.estimate), points(a.estimate, style)));
  if (!noted.empty())
    out.push_back(fmt::format("Noted{}, not decided: {}.",
                              several ? "" : " at " + level_text(plan.plan.lever, f.contrasts.front().b, style),
                              listed(noted)));
  std::string others = "Other leaves, other cups";
  if (f.tasting_temperature)
    others += ", and how it drinks hotter than " + temperature_text(*f.tasting_temperature, style);
  out.push_back(others + ".");
  return out;
}

}  // namespace likeleaf::wording
