#pragma once
// The parts of the plan screen, from what changes to how it is served.
#include "ui/plan/plan_section.h"

namespace likeleaf::ui {

/// The question, the lever and its levels.
class ChangesSection final : public PlanSection {
 public:
  using PlanSection::PlanSection;

 protected:
  QString signature(const Plan& plan) const override;
  void build(const Plan& plan, QVBoxLayout* down) override;

 private:
  void level_row(const Plan& plan, std::size_t at, QVBoxLayout* down);
};

/// The constants with their tolerances.
class StaysSection final : public PlanSection {
 public:
  using PlanSection::PlanSection;

 protected:
  QString signature(const Plan& plan) const override;
  void build(const Plan& plan, QVBoxLayout* down) override;

 private:
  void row(const Plan& plan, std::size_t at, QVBoxLayout* down);
};

/// The lots of the register: which are in the trial, and what is known of them.
class LeafSection final : public PlanSection {
 public:
  using PlanSection::PlanSection;

 protected:
  QString signature(const Plan& plan) const override;
  void build(const Plan& plan, QVBoxLayout* down) override;

 private:
  void details(const Lot& lot, const QString& object, QVBoxLayout* down);
  void add_lot();
};

/// Attributes with their mark, margin and expectation.
class MatterSection final : public PlanSection {
 public:
  using PlanSection::PlanSection;

 protected:
  QString signature(const Plan& plan) const override;
  void build(const Plan& plan, QVBoxLayout* down) override;
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
};

/// The assessors and what each does.
class WhoSection final : public PlanSection {
 public:
  using PlanSection::PlanSection;

 protected:
  QString signature(const Plan& plan) const override;
  void build(const Plan& plan, QVBoxLayout* down) override;

 private:
  void add_person();
};

/// Brew pairs, sittings, controls, serving way, sip protocol, warm-up and open reference pair.
class ServingSection final : public PlanSection {
 public:
  using PlanSection::PlanSection;

 protected:
  QString signature(const Plan& plan) const override;
  void build(const Plan& plan, QVBoxLayout* down) override;

 private:
  void control_row(std::size_t at, QVBoxLayout* down);
  void count_row(const QString& text, const QString& object, int Plan::*field, int lowest, int highest,
                 QVBoxLayout* down);
};

}  // namespace likeleaf::ui
