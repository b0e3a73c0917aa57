#pragma once
// Inside of check(): what each part of a plan is looked at with, and where the notes go.
#include <string>
#include <utility>
#include <vector>

#include "core/planning/plan_check.h"

namespace likeleaf::plan_check {

/// The plan with everything it refers to.
struct Given {
  const Plan& plan;
  const Registers& registers;
  const std::vector<Attribute>& attributes;
  /// "L-07", or the id where the registers do not know the lot.
  [[nodiscard]] std::string lot_text(IdOf<Lot> id) const;
  [[nodiscard]] std::string person_text(IdOf<Assessor> id) const;
  [[nodiscard]] bool knows(IdOf<Lot> id) const { return find_record(registers.lots, id) != nullptr; }
};

class Notes {
 public:
  void block(ErrorKind kind, std::string field, std::string value, std::string allowed) {
    blocks_.push_back(note(PlanNote::Weight::blocks, kind, std::move(field), std::move(value), std::move(allowed)));
  }
  void caution(std::string field, std::string value, std::string allowed, ErrorKind kind = ErrorKind::bad_value) {
    cautions_.push_back(note(PlanNote::Weight::caution, kind, std::move(field), std::move(value), std::move(allowed)));
  }
  /// Blocks first.
  [[nodiscard]] std::vector<PlanNote> all() && {
    blocks_.insert(blocks_.end(), std::make_move_iterator(cautions_.begin()), std::make_move_iterator(cautions_.end()));
    return std::move(blocks_);
  }

 private:
  static PlanNote note(PlanNote::Weight weight, ErrorKind kind, std::string field, std::string value,
                       std::string allowed) {
    return PlanNote{weight, Error{kind, std::move(field), std::move(value), std::move(allowed), {}}};
  }
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

/// A quantity of a constant's or lever's kind for a message: "105 °C", "45 s", "4 g"; any 64-bit value is safe.
std::string quantity_text(ConstantKind kind, std::int64_t value);
/// The kind has a numeric target.
bool has_number(ConstantKind kind);

}  // namespace likeleaf::plan_check
