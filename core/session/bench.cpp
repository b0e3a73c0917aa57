// The trial on the bench: commands, undo, seal, unmask.
#include <algorithm>
#include <array>

#include "core/acts/agreed_words.h"
#include "core/codec/seal.h"
#include "core/codec/trial_document.h"
#include "core/design/deal.h"
#include "core/planning/plan_check.h"
#include "core/session/inner.h"
#include "core/store/blind.h"
#include "core/store/load.h"
#include "core/store/rows.h"
#include "core/wording/plan_note_text.h"

namespace likeleaf {

namespace {

/// Seal, lock and unmask wait for the disk and are refused when it does not take them: what cannot be taken back must
/// not be shown before it is kept.
bool is_barrier(const Command& command) {
  return std::holds_alternative<ApplySeal>(command) || std::holds_alternative<LockSheet>(command) ||
         std::holds_alternative<Unmask>(command);
}

/// "14 to 16, the nearest 16": what a book of a thousand trials can say in one line.
std::string numbers_text(const std::optional<store::NumbersAround>& around) {
  if (!around) return "no trial yet";
  const auto said = [](int number) { return std::to_string(number); };
  if (around->lowest == around->highest) return said(around->lowest);
  std::string text = said(around->lowest) + " to " + said(around->highest) + ", the nearest ";
  if (around->below) text += said(*around->below);
  if (around->below && around->above) text += " and ";
  if (around->above) text += said(*around->above);
  return text;
}

tl::unexpected<Error> no_trial() {
  return fail(ErrorKind::not_found, "trial", {}, "a trial on the bench");
}

}  // namespace

Result<Ticket> Session::Inner::perform(const Command& command, Track track) {
  if (auto may = may_write(); !may) return tl::unexpected<Error>(may.error());
  if (!trial) return no_trial();
  auto change = apply(trial, command, services.clock.now());
  if (!change) return tl::unexpected<Error>(change.error());
  if (!change->changed) return Ticket{0};
  const store::Writer::Job job = [before = trial, after = change->next](store::Connection& db) {
    store::persist(db, before.get(), *after);
  };
  Ticket ticket = 0;
  if (is_barrier(command)) {
    const auto kept = writer->barrier(job);
    if (!kept) return tl::unexpected<Error>(kept.error());
    ticket = *kept;
  } else {
    ticket = writer->add(job);
  }
  trial = change->next;
  remember(*change, track);
  forget(command);
  tell(change->notice);
  return ticket;
}

void Session::Inner::remember(const Change& change, Track track) {
  if (!change.scope || !change.inverse) return;
  History& history = histories[*change.scope];
  (track == Track::undo ? history.redo : history.undo).push_back(*change.inverse);
  if (track == Track::fresh) history.redo.clear();
}

/// What is sealed, locked or unmasked has no undo any more.
void Session::Inner::forget(const Command& done) {
  if (std::holds_alternative<ApplySeal>(done)) histories.erase({Scope::Kind::plan, {}});
  if (std::holds_alternative<ApplySeal>(done) || std::holds_alternative<Unmask>(done)) histories.clear();
  if (const auto* lock = std::get_if<LockSheet>(&done)) histories.erase({Scope::Kind::sheet, lock->serving.text()});
}

Result<IdOf<Trial>> Session::new_trial(const Plan& start) {
  if (auto may = inner_->may_write(); !may) return tl::unexpected<Error>(may.error());
  if (auto settled = inner_->settled(); !settled) return tl::unexpected<Error>(settled.error());
  auto trial = std::make_shared<Trial>();
  trial->draft = start;
  if (trial->draft.id.empty()) trial->draft.id = IdOf<Trial>::make(inner_->services.entropy);
  if (store::has_trial(inner_->book->reading(), trial->draft.id))
    return fail(ErrorKind::duplicate, "trial", trial->draft.id.text(), "a new id");
  // A house that numbered its trials on paper goes on from there: a start's higher number is kept.
  trial->draft.number = std::max(start.number, store::next_number(inner_->book->reading()));
  trial->created = inner_->services.clock.now();
  inner_->writer->add([trial](store::Connection& db) { store::persist(db, nullptr, *trial); });
  inner_->trial = trial;
  inner_->histories.clear();
  inner_->desk.reset();
  inner_->tell({Part::plan, {}});
  return trial->draft.id;
}

Result<void> Session::take(IdOf<Trial> trial) {
  if (inner_->trial && inner_->trial->id() == trial) return {};
  // What could not be written is only here: another trial may not push it from the bench.
  if (auto settled = inner_->settled(); !settled) return settled;
  auto loaded = store::load_trial(inner_->book->reading(), trial);
  if (!loaded) return tl::unexpected<Error>(loaded.error());
  inner_->trial = std::make_shared<const Trial>(std::move(*loaded));
  inner_->histories.clear();
  inner_->desk.reset();
  inner_->tell({Part::plan, {}});
  return {};
}

Result<void> Session::take_number(int number) {
  if (auto settled = inner_->settled(); !settled) return settled;
  const auto id = store::trial_of_number(inner_->book->reading(), number);
  if (id) return take(*id);
  return fail(ErrorKind::not_found, "trial", std::to_string(number),
              numbers_text(store::numbers_around(inner_->book->reading(), number)), path().string());
}

std::shared_ptr<const Trial> Session::trial() const {
  return inner_->trial;
}

Result<std::shared_ptr<const Trial>> Session::read(IdOf<Trial> trial) const {
  if (inner_->trial && inner_->trial->id() == trial) return inner_->trial;
  if (auto settled = inner_->settled(); !settled) return tl::unexpected<Error>(settled.error());
  auto loaded = store::load_trial(inner_->book->reading(), trial);
  if (!loaded) return tl::unexpected<Error>(loaded.error());
  return std::make_shared<const Trial>(std::move(*loaded));
}

Result<Ticket> Session::run(const Command& command) {
  if (std::holds_alternative<ApplySeal>(command)) return fail(ErrorKind::not_allowed, "seal", {}, "the seal's own way");
  return inner_->perform(command, Inner::Track::fresh);
}

Result<Ticket> Session::seal(const Style& style) {
  if (auto may = inner_->may_write(); !may) return tl::unexpected<Error>(may.error());
  if (!inner_->trial) return no_trial();
  if (inner_->trial->sealed) return fail(ErrorKind::not_allowed, "seal", "sealed already", "a plan that is not sealed");
  const Plan& plan = inner_->trial->draft;
  for (const auto& note : check(plan, inner_->registers, inner_->attributes))
    if (note.weight == PlanNote::Weight::blocks) {
      const wording::NotedPlan noted{plan, inner_->registers, inner_->attributes};
      return tl::unexpected<Error>(wording::error_of(note, noted, style));
    }
  std::array<std::uint8_t, 32> seed{}, salt{};
  inner_->services.entropy.fill(seed);
  inner_->services.entropy.fill(salt);
  auto deal = design::deal(plan, seed, salt, inner_->services.entropy);
  if (!deal) return tl::unexpected<Error>(deal.error());
  auto sealed = std::make_shared<SealedPlan>();
  sealed->plan = plan;
  sealed->registers = registers_of(plan, inner_->registers);
  sealed->attributes = attributes_of(plan, inner_->attributes);
  sealed->sealed = inner_->services.clock.now();
  take_digests(*sealed, deal->key);
  ApplySeal command{sealed, std::make_shared<const Key>(std::move(deal->key)), std::move(deal->servings)};
  return inner_->perform(command, Inner::Track::fresh);
}

Result<Ticket> Session::unmask(const std::string& who) {
  return run(Unmask{who});
}

Result<Unmasked> Session::unmasked() const {
  if (!inner_->trial) return no_trial();
  return open_unmasked(inner_->trial);
}

bool Session::can_undo(const Scope& scope) const {
  const auto found = inner_->histories.find(scope);
  return found != inner_->histories.end() && !found->second.undo.empty();
}

bool Session::can_redo(const Scope& scope) const {
  const auto found = inner_->histories.find(scope);
  return found != inner_->histories.end() && !found->second.redo.empty();
}

Result<Ticket> Session::undo(const Scope& scope) {
  if (!can_undo(scope)) return fail(ErrorKind::not_allowed, "undo", {}, "something to undo");
  const Command inverse = inner_->histories[scope].undo.back();
  auto ticket = inner_->perform(inverse, Inner::Track::undo);
  if (ticket) inner_->histories[scope].undo.pop_back();
  return ticket;
}

Result<Ticket> Session::redo(const Scope& scope) {
  if (!can_redo(scope)) return fail(ErrorKind::not_allowed, "redo", {}, "something to redo");
  const Command inverse = inner_->histories[scope].redo.back();
  auto ticket = inner_->perform(inverse, Inner::Track::redo);
  if (ticket) inner_->histories[scope].redo.pop_back();
  return ticket;
}

Result<void> Session::flush() {
  return inner_->settled();
}

void Session::retry() {
  if (inner_->writer) inner_->writer->retry();
}

Subscription Session::on_change(std::function<void(const Notice&)> hear) {
  const auto id = inner_->listeners->next++;
  inner_->listeners->change.emplace(id, std::move(hear));
  return Subscription([id, there = std::weak_ptr(inner_->listeners)] {
    if (const auto listeners = there.lock()) listeners->change.erase(id);
  });
}

Subscription Session::on_kept(std::function<void(const Kept&)> hear) {
  const auto id = inner_->listeners->next++;
  inner_->listeners->kept.emplace(id, std::move(hear));
  return Subscription([id, there = std::weak_ptr(inner_->listeners)] {
    if (const auto listeners = there.lock()) listeners->kept.erase(id);
  });
}

Result<std::unique_ptr<TasterPort>> Session::taster(IdOf<Assessor> assessor) {
  const auto trial = inner_->trial;
  if (!trial) return no_trial();
  if (!trial->sealed) return fail(ErrorKind::not_allowed, "tasting", {}, "a sealed trial");
  const auto tastes = [&](const BlindServing& serving) { return serving.assessor == assessor; };
  if (std::ranges::none_of(trial->servings, tastes)) {
    const auto* person = find_record(inner_->registers.assessors, assessor);
    return fail(ErrorKind::not_allowed, "tasting", person == nullptr ? assessor.text() : person->alias,
                "someone who tastes in this trial");
  }
  if (auto settled = inner_->settled(); !settled) return tl::unexpected<Error>(settled.error());
  if (!inner_->desk)
    inner_->desk = make_taster_desk(
        *this, [inner = inner_.get(), id = trial->id()](IdOf<Assessor> who) -> Result<std::vector<BlindServing>> {
          // The rows of a spare may still be on their way to the disk.
          if (auto settled = inner->settled(); !settled) return tl::unexpected<Error>(settled.error());
          const auto blind = inner->book->blind();
          if (!blind) return tl::unexpected<Error>(blind.error());
          return store::read_flight(**blind, id, who);
        });
  auto setup = taster_setup(*trial->sealed, assessor);
  setup.agreed_words = agreed_words(*trial);
  for (const auto& serving : trial->servings) setup.sittings = std::max(setup.sittings, serving.sitting);
  return make_taster_port(inner_->desk, assessor, std::move(setup));
}

}  // namespace likeleaf
