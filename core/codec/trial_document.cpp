#include "core/codec/trial_document.h"

#include <algorithm>

#include "core/base/digest.h"
#include "core/codec/codec.h"

namespace likeleaf {
namespace {

using codec::to_json;
using nlohmann::json;

template <class Record, class Keep>
std::vector<Record> kept(const std::vector<Record>& records, Keep keep) {
  std::vector<Record> out;
  std::copy_if(records.begin(), records.end(), std::back_inserter(out), keep);
  return out;
}

template <class T>
bool holds(const std::vector<T>& list, const T& one) {
  return std::find(list.begin(), list.end(), one) != list.end();
}

bool plan_names(const Plan& plan, IdOf<Lot> lot) {
  const auto in_controls = [&](const Control& control) { return control.lot == lot; };
  return holds(plan.lots, lot) || plan.warm_up_lot == lot || (plan.rule && holds(plan.rule->leaves, lot)) ||
         (plan.reference_pair && plan.reference_pair->lot == lot) ||
         std::any_of(plan.controls.begin(), plan.controls.end(), in_controls);
}

/// Waters and vessels are named by id text in constants and levels, and by nothing else.
bool names_record(const Plan& plan, const std::string& id) {
  const auto named = [&](const auto& one) { return one.record == id; };
  return std::any_of(plan.constants.begin(), plan.constants.end(), named) ||
         std::any_of(plan.lever.levels.begin(), plan.lever.levels.end(), named);
}

template <class T>
json list_json(const std::vector<T>& list) {
  json out = json::array();
  for (const auto& one : list) out.push_back(to_json(one));
  return out;
}

template <class Key, class Value>
json shared_values(const std::map<Key, std::shared_ptr<const Value>>& map) {
  json out = json::array();
  for (const auto& [id, value] : map) out.push_back(to_json(*value));
  return out;
}

json draft_json(const Trial& trial, const Registers& book, const std::vector<Attribute>& book_attributes) {
  return json{{"plan", to_json(trial.draft)},
              {"registers", to_json(registers_of(trial.draft, book))},
              {"attributes", list_json(attributes_of(trial.draft, book_attributes))}};
}

void add_keyed_side(json& out, const Trial& trial) {
  out["key"] = to_json(*trial.key);
  out["brews"] = shared_values(trial.brews);
  json served = json::array();
  for (const auto& [id, pair] : trial.served) served.push_back(to_json(pair));
  out["served"] = std::move(served);
}

json trial_json(const Trial& trial, const Registers& book, const std::vector<Attribute>& book_attributes) {
  json out{{"created", to_json(trial.created)}};
  if (!trial.sealed) {
    out["draft"] = draft_json(trial, book, book_attributes);
    return out;
  }
  const bool keyed = trial.unmasked && trial.key;
  out["sealed"] = to_json(*trial.sealed);
  out["servings"] = list_json(trial.servings);
  out["sheets"] = shared_values(trial.sheets);
  out["days"] = list_json(trial.days);
  out["weighed"] = list_json(trial.weighed);
  out["voids"] = list_json(trial.voids);
  out["amendments"] = list_json(
      kept(trial.amendments, [&](const Amendment& a) { return keyed || a.target != Amendment::Target::brew; }));
  out["exclusions"] = list_json(trial.exclusions);
  out["openings"] = list_json(trial.openings);
  if (keyed) add_keyed_side(out, trial);
  if (trial.unmasked) out["unmasked"] = to_json(*trial.unmasked);
  if (trial.rule) out["rule"] = to_json(*trial.rule);
  return out;
}

}  // namespace

Registers registers_of(const Plan& plan, const Registers& book) {
  const auto tastes_or_prepares = [&](const Assessor& assessor) {
    return std::any_of(plan.assessors.begin(), plan.assessors.end(),
                       [&](const PlanAssessor& a) { return a.id == assessor.id; });
  };
  Registers out;
  out.lots = kept(book.lots, [&](const Lot& lot) { return plan_names(plan, lot.id); });
  out.waters = kept(book.waters, [&](const Water& water) { return names_record(plan, water.id.text()); });
  out.vessels = kept(book.vessels, [&](const Vessel& vessel) { return names_record(plan, vessel.id.text()); });
  out.assessors = kept(book.assessors, tastes_or_prepares);
  return out;
}

std::vector<Attribute> attributes_of(const Plan& plan, const std::vector<Attribute>& book_attributes) {
  std::vector<Attribute> out;
  for (const auto& named : plan.attributes)
    if (const auto* attribute = find_attribute(book_attributes, named.attribute)) out.push_back(*attribute);
  return out;
}

std::string trial_text(const Trial& trial, const Registers& book, const std::vector<Attribute>& book_attributes) {
  return canonical_text(trial_json(trial, book, book_attributes));
}

std::string trial_digest(const Trial& trial, const Registers& book, const std::vector<Attribute>& book_attributes) {
  return Digest::of(trial_text(trial, book, book_attributes)).hex();
}

}  // namespace likeleaf
