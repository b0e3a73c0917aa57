#pragma once
// Inside of check(): what each part of a plan is looked at with, and where the notes go.
#include <iterator>
#include <utility>
#include <vector>

#include "core/planning/plan_check.h"

namespace likeleaf::plan_check {

/// The plan with everything it refers to.
struct Given {
  const Plan& plan;
  const Registers& registers;
  const std::vector<Attribute>& attributes;
  [[nodiscard]] bool knows(IdOf<Lot> id) const { return find_record(registers.lots, id) != nullptr; }
};

class Notes {
 public:
  void block(PlanNote note) {
    note.weight = PlanNote::Weight::blocks;
    blocks_.push_back(std::move(note));
  }
  void caution(PlanNote note) {
    note.weight = PlanNote::Weight::caution;
    cautions_.push_back(std::move(note));
  }
  /// Blocks first.
  [[nodiscard]] std::vector<PlanNote> all() && {
    blocks_.insert(blocks_.end(), std::make_move_iterator(cautions_.begin()), std::make_move_iterator(cautions_.end()));
    return std::move(blocks_);
  }

 private:
  std::vector<PlanNote> blocks_, cautions_;
};

// What changes, what is held (plan_check_brewing.cpp).
void check_lever(const Given& given, Notes& notes);
void check_constants(const Given& given, Notes& notes);
void check_lots(const Given& given, Notes& notes);
void check_stock(const Given& given, Notes& notes);
// Who tastes what, and what is decided (plan_check_tasting.cpp).
void check_people(const Given& given, Notes& notes);
void check_attributes(const Given& given, Notes& notes);
void check_rule(const Given& given, Notes& notes);
void check_controls(const Given& given, Notes& notes);
void check_sittings(const Given& given, Notes& notes);
void check_power(const Given& given, Notes& notes);

}  // namespace likeleaf::plan_check
