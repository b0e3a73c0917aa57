#pragma once
// The parts of the plan screen, in the order in which they are walked.
#include "ui/plan/plan_section.h"
#include "ui/plan/register_section.h"

namespace likeleaf::ui {

/// The question, the lever and its levels.
class ChangesSection final : public RegisterSection {
 public:
  using RegisterSection::RegisterSection;

 protected:
  QString signature(const Plan& plan) const override;
  void build(const Plan& plan, QVBoxLayout* down) override;

 private:
  void question(const Plan& plan, QVBoxLayout* down);
  void level_row(const Plan& plan, std::size_t at, QVBoxLayout* down);
  void level_number(std::size_t at, ConstantKind kind, QHBoxLayout* across);
  void level_name(const Plan& plan, std::size_t at, QHBoxLayout* across);
  void schedule(const Plan& plan, std::size_t at, QVBoxLayout* down);
  void infusion_row(std::size_t level, std::size_t at, QVBoxLayout* down);
};

/// The constants with their tolerances.
class StaysSection final : public RegisterSection {
 public:
  using RegisterSection::RegisterSection;

 protected:
  QString signature(const Plan& plan) const override;
  void build(const Plan& plan, QVBoxLayout* down) override;

 private:
  void row(const Plan& plan, std::size_t at, QVBoxLayout* down);
  void number(std::size_t at, ConstantKind kind, bool is_lever, QHBoxLayout* across, QVBoxLayout* down);
  void text(std::size_t at, ConstantKind kind, QHBoxLayout* across, QVBoxLayout* down);
  void record(const Plan& plan, std::size_t at, ConstantKind kind, QVBoxLayout* down);
};

/// The lots of the register: which are in the trial, and what is known of them.
class LeafSection final : public PlanSection {
 public:
  using PlanSection::PlanSection;

 protected:
  QString signature(const Plan& plan) const override;
  void build(const Plan& plan, QVBoxLayout* down) override;

 private:
  void row(const Plan& plan, std::size_t at, QVBoxLayout* down);
  void details(const Lot& lot, const QString& object, QVBoxLayout* down);
  void numbers(IdOf<Lot> id, const QString& object, QVBoxLayout* down);
  void add_lot();
  [[nodiscard]] Lot lot_of(IdOf<Lot> id) const;
  QString change(IdOf<Lot> id, const std::function<Result<void>(Lot&)>& change) const;
};

/// Attributes with their mark, margin and expectation, the house's own words, and attributes of its own.
class MatterSection final : public PlanSection {
 public:
  using PlanSection::PlanSection;

 protected:
  QString signature(const Plan& plan) const override;
  void build(const Plan& plan, QVBoxLayout* down) override;

 private:
  void row(std::size_t at, const std::string& id, QGridLayout* grid, int line);
  QWidget* details(const Plan& plan, std::size_t at, const std::string& id);
  void own_fields(const std::string& id, const QString& object, QVBoxLayout* down);
  void add_own();
  [[nodiscard]] Attribute attribute_of(const std::string& id) const;
};

/// If … then at the counter we …
class RuleSection final : public PlanSection {
 public:
  using PlanSection::PlanSection;

 protected:
  QString signature(const Plan& plan) const override;
  void build(const Plan& plan, QVBoxLayout* down) override;

 private:
  void clause_row(std::size_t at, QVBoxLayout* down);
  void leaves(const Plan& plan, QVBoxLayout* down);
};

/// The assessors and what each does.
class WhoSection final : public PlanSection {
 public:
  using PlanSection::PlanSection;

 protected:
  QString signature(const Plan& plan) const override;
  void build(const Plan& plan, QVBoxLayout* down) override;

 private:
  void row(std::size_t at, QVBoxLayout* down);
  void add_person();
};

/// Brew pairs, sittings, cups, serving way, sip protocol, spit or swallow, warm-up.
class ServingSection final : public PlanSection {
 public:
  using PlanSection::PlanSection;

 protected:
  QString signature(const Plan& plan) const override;
  void build(const Plan& plan, QVBoxLayout* down) override;

 private:
  void count_row(const QString& text, const QString& object, int Plan::*field, int lowest, int highest,
                 QVBoxLayout* down);
  void cup_row(QVBoxLayout* down);
};

/// Blanks, yardsticks, repeats.
class ControlsSection final : public PlanSection {
 public:
  using PlanSection::PlanSection;

 protected:
  QString signature(const Plan& plan) const override;
  void build(const Plan& plan, QVBoxLayout* down) override;

 private:
  void row(const Plan& plan, std::size_t at, QVBoxLayout* down);
  void dilution(std::size_t at, QVBoxLayout* down);
};

/// The panel's open reference pair, and the words it agreed on; those may be written after the seal too, until the
/// first sheet is begun.
class AgreeSection final : public PlanSection {
 public:
  using PlanSection::PlanSection;

 protected:
  QString signature(const Plan& plan) const override;
  void build(const Plan& plan, QVBoxLayout* down) override;
};

/// Which sheets will not count, how sure is sure, which trial this one follows, notes and the house.
class CountSection final : public PlanSection {
 public:
  using PlanSection::PlanSection;

 protected:
  QString signature(const Plan& plan) const override;
  void build(const Plan& plan, QVBoxLayout* down) override;

 private:
  void decided_by(QVBoxLayout* down);
  void follows(QVBoxLayout* down);
};

// What several parts ask --------------------------------------------------------------------------------------------
/// Codes of the lots in the register's order; the place of one there (−1: not there), and the lot at a place.
QStringList lot_codes(const PlanEditor& editor);
int lot_place(const PlanEditor& editor, IdOf<Lot> id);
IdOf<Lot> lot_at(const PlanEditor& editor, int at);
/// "88 °C", or "level 2" where a level has no words yet.
QStringList level_names(const Plan& plan, const Style& style);
QString attribute_name(const PlanEditor& editor, const std::string& id);

}  // namespace likeleaf::ui
