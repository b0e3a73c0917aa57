// The session's side of a taster's port: from the snapshot to its open parts.
#include <algorithm>

#include "core/codec/builtin.h"
#include "core/session/inner.h"
#include "core/wording/cautions.h"

namespace likeleaf {

namespace {

class Desk final : public TasterDesk {
 public:
  Desk(Session& session, FlightReader read_flight) : session_(session), read_flight_(std::move(read_flight)) {}

  std::size_t flight_state() const override {
    const auto trial = session_.trial();
    return trial->servings.size() * 1000 + trial->voids.size();
  }
  Result<std::vector<BlindServing>> flight(IdOf<Assessor> assessor) override { return read_flight_(assessor); }
  Sheet sheet(IdOf<Serving> serving) const override {
    const auto trial = session_.trial();
    if (const auto found = trial->sheets.find(serving); found != trial->sheets.end()) return *found->second;
    Sheet empty;
    empty.serving = serving;
    return empty;
  }
  std::optional<DayState> day(IdOf<Assessor> assessor, int sitting) const override {
    for (const auto& day : session_.trial()->days)
      if (day.assessor == assessor && day.sitting == sitting) return day;
    return std::nullopt;
  }
  LockReview review(IdOf<Serving> serving) const override {
    const auto trial = session_.trial();
    const auto found = std::ranges::find(trial->servings, serving, &BlindServing::id);
    if (!trial->sealed || found == trial->servings.end()) return {};
    return likeleaf::review(*trial->sealed, *found, sheet(serving));
  }
  Result<std::uint64_t> act(const TasterAct& act) override {
    return std::visit([this](const auto& one) { return session_.run(one); }, act);
  }
  bool can_undo(IdOf<Serving> serving) const override { return session_.can_undo(scope(serving)); }
  Result<std::uint64_t> undo(IdOf<Serving> serving) override { return session_.undo(scope(serving)); }
  Subscription on_kept(std::function<void(const Kept&)> hear) override { return session_.on_kept(std::move(hear)); }
  void retry() override { session_.retry(); }
  Subscription on_flight(std::function<void()> hear) override {
    return session_.on_change([hear = std::move(hear)](const Notice& notice) {
      if (notice.part == Part::voids) hear();
    });
  }

 private:
  static Scope scope(IdOf<Serving> serving) { return {Scope::Kind::sheet, serving.text()}; }

  Session& session_;
  FlightReader read_flight_;
};

}  // namespace

std::shared_ptr<TasterDesk> make_taster_desk(Session& session, FlightReader read_flight) {
  return std::make_shared<Desk>(session, std::move(read_flight));
}

TasterSetup taster_setup(const SealedPlan& sealed, IdOf<Assessor> assessor) {
  TasterSetup setup;
  if (const auto* person = find_record(sealed.registers.assessors, assessor)) setup.alias = person->alias;
  setup.attributes = sealed.attributes;
  setup.lexicon = builtin_lexicon();
  setup.attribute_by_attribute = sealed.plan.sip == SipProtocol::attribute_by_attribute;
  setup.hide_first_cup = sealed.plan.hide_first_cup;
  setup.self_blinded = sealed.plan.blinding == Blinding::self;
  setup.sittings = std::max(1, sealed.plan.sittings);
  // Of every leaf on the table, sorted: in the plan's order it would say something about the lots.
  for (const auto& lot : sealed.registers.lots)
    if (!lot.allergens.empty()) setup.allergens.push_back(lot.allergens);
  std::ranges::sort(setup.allergens);
  setup.allergens.erase(std::unique(setup.allergens.begin(), setup.allergens.end()), setup.allergens.end());
  // Without the lots: a caution that named a leaf would say what is on the table.
  setup.cautions = wording::cautions(wording::Step::taste, sealed.plan, {}, {});
  return setup;
}

}  // namespace likeleaf
