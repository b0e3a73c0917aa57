#pragma once
// A part of the plan that names waters and vessels of the house's register: chosen, added and described in place.
#include <functional>
#include <string>

#include "ui/plan/plan_section.h"

namespace likeleaf::ui {

class RegisterSection : public PlanSection {
 public:
  using PlanSection::PlanSection;

 protected:
  enum class Kind { water, vessel };
  /// The name of a record by its id text; empty when there is none.
  [[nodiscard]] QString record_name(Kind kind, const std::string& id) const;
  /// Which record is meant: none, one of the register, or a new one, whose facts are opened at once under
  /// `object`.facts. `take` puts the id, and the names of the record left and the one taken, into the plan.
  QWidget* record_choice(Kind kind, const QString& name, const QString& object, const QString& none,
                         const std::function<std::string(const Plan&)>& record,
                         const std::function<void(Plan&, const std::string& id, const std::string& name)>& take);
  /// What the register knows of a record, changed in place; nothing for no record.
  void facts(Kind kind, const std::string& id, const QString& object, QVBoxLayout* down);
  /// Changes with what the register holds of a kind.
  [[nodiscard]] QString register_signature() const;

 private:
  void water_facts(IdOf<Water> id, const QString& object, QVBoxLayout* down);
  void vessel_facts(IdOf<Vessel> id, const QString& object, QVBoxLayout* down);
  /// Adds a record under the next free name; its id text, empty when it was refused.
  std::string add_record(Kind kind);
};

}  // namespace likeleaf::ui
