#pragma once
// Where on the plan screen something that is said of a plan belongs.
#include <QString>
#include <vector>

#include "core/domain/plan.h"
#include "core/planning/plan_check.h"
#include "core/wording/plan_note_text.h"
#include "ui/plan/plan_section.h"

namespace likeleaf::ui {

/// The object name of the control that a note of check() is about; empty for notes about the plan as a whole.
QString place_of(const PlanNote& note, const Plan& plan, const Registers& registers);
/// All notes by their place; what is merely missing makes a control wanted, everything else is a sentence.
NotesByPlace notes_by_place(const std::vector<PlanNote>& notes, const wording::NotedPlan& of, const Style& style);

}  // namespace likeleaf::ui
