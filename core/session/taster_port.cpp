#include "core/session/taster_port.h"

#include <algorithm>

#include "core/session/taster_desk.h"

namespace likeleaf {

namespace {

class BlindPort final : public TasterPort {
 public:
  BlindPort(std::weak_ptr<TasterDesk> desk, IdOf<Assessor> assessor, TasterSetup setup)
      : desk_(std::move(desk)), assessor_(assessor), setup_(std::move(setup)) {}

  Result<void> refresh() const {
    const auto desk = desk_.lock();
    if (!desk) return fail(ErrorKind::not_allowed, "sheet", {}, "while the book is open");
    if (const auto state = desk->flight_state(); read_at_ != state) {
      auto flight = desk->flight(assessor_);
      if (!flight) return tl::unexpected<Error>(flight.error());
      flight_ = std::move(*flight);
      read_at_ = state;
    }
    return {};
  }

  const TasterSetup& setup() const override { return setup_; }
  std::vector<BlindServing> flight() const override {
    // When the book cannot be read now, what was read before stands.
    [[maybe_unused]] const auto fresh = refresh();
    return flight_;
  }
  Sheet sheet(IdOf<Serving> serving) const override {
    const auto desk = desk_.lock();
    if (desk && mine(serving)) return desk->sheet(serving);
    Sheet empty;
    empty.serving = serving;
    return empty;
  }
  std::optional<DayState> day(int sitting) const override {
    const auto desk = desk_.lock();
    return desk ? desk->day(assessor_, sitting) : std::nullopt;
  }

  Result<std::uint64_t> start(IdOf<Serving> s, EnteredBy by) override { return act_on(s, StartSheet{s, by}); }
  Result<std::uint64_t> put(IdOf<Serving> s, Side side, const std::string& field, std::optional<Mark> mark) override {
    return act_on(s, PutMark{s, side, field, mark});
  }
  Result<std::uint64_t> answer(IdOf<Serving> s, const std::string& attribute, std::optional<Direct> answer) override {
    return act_on(s, PutDirect{s, attribute, answer});
  }
  Result<std::uint64_t> words(IdOf<Serving> s, Side side, std::vector<WordMark> words) override {
    return act_on(s, PutWords{s, side, std::move(words)});
  }
  Result<std::uint64_t> fault(IdOf<Serving> s, Side side, bool fault, const std::string& note) override {
    return act_on(s, PutFault{s, side, fault, note});
  }
  Result<std::uint64_t> note(IdOf<Serving> s, const std::string& note) override {
    return act_on(s, PutSheetNote{s, note});
  }
  Result<std::uint64_t> sipped_first(IdOf<Serving> s, std::optional<Side> side) override {
    return act_on(s, PutSippedFirst{s, side});
  }
  Result<std::uint64_t> day_state(const DayState& state) override {
    const auto desk = desk_.lock();
    if (!desk) return closed();
    DayState own = state;
    own.assessor = assessor_;
    return desk->act(PutDayState{std::move(own)});
  }
  LockReview review(IdOf<Serving> serving) const override {
    const auto desk = desk_.lock();
    return desk && mine(serving) ? desk->review(serving) : LockReview{};
  }
  Result<std::uint64_t> second(IdOf<Serving> s, Side side, const std::string& field,
                               std::optional<Mark> mark) override {
    return act_on(s, PutSecondReading{s, side, field, mark});
  }
  Result<std::uint64_t> second_answer(IdOf<Serving> s, const std::string& attribute,
                                      std::optional<Direct> answer) override {
    return act_on(s, PutSecondAnswer{s, attribute, answer});
  }
  Result<std::uint64_t> settle(IdOf<Serving> s, Side side, const std::string& field,
                               std::optional<Mark> mark) override {
    return act_on(s, SettleReading{s, side, field, mark, mark});
  }
  Result<std::uint64_t> settle_answer(IdOf<Serving> s, const std::string& attribute,
                                      std::optional<Direct> answer) override {
    return act_on(s, SettleAnswer{s, attribute, answer, answer});
  }
  Result<std::uint64_t> lock(IdOf<Serving> s, bool entered_once) override {
    return act_on(s, LockSheet{s, entered_once});
  }
  Result<std::uint64_t> guess(IdOf<Serving> s, const Guess& guess) override { return act_on(s, PutGuess{s, guess}); }
  bool can_undo(IdOf<Serving> serving) const override {
    const auto desk = desk_.lock();
    return desk && mine(serving) && desk->can_undo(serving);
  }
  Result<std::uint64_t> undo(IdOf<Serving> serving) override {
    const auto desk = desk_.lock();
    if (!desk) return closed();
    if (!mine(serving)) return not_mine();
    return desk->undo(serving);
  }
  Subscription on_kept(std::function<void(const Kept&)> hear) override {
    const auto desk = desk_.lock();
    return desk ? desk->on_kept(std::move(hear)) : Subscription();
  }
  void retry() override {
    if (const auto desk = desk_.lock()) desk->retry();
  }
  Subscription on_flight(std::function<void()> hear) override {
    const auto desk = desk_.lock();
    return desk ? desk->on_flight(std::move(hear)) : Subscription();
  }

 private:
  static tl::unexpected<Error> closed() { return fail(ErrorKind::not_allowed, "sheet", {}, "while the book is open"); }
  static tl::unexpected<Error> not_mine() {
    return fail(ErrorKind::not_allowed, "sheet", "another assessor's", "your own sheets");
  }
  bool mine(IdOf<Serving> serving) const {
    const auto own = flight();
    return std::ranges::any_of(own, [&](const BlindServing& s) { return s.id == serving; });
  }
  Result<std::uint64_t> act_on(IdOf<Serving> serving, const TasterAct& what) {
    const auto desk = desk_.lock();
    if (!desk) return closed();
    if (!mine(serving)) return not_mine();
    return desk->act(what);
  }

  std::weak_ptr<TasterDesk> desk_;
  IdOf<Assessor> assessor_;
  TasterSetup setup_;
  mutable std::vector<BlindServing> flight_;
  mutable std::optional<std::size_t> read_at_;
};

}  // namespace

Result<std::unique_ptr<TasterPort>> make_taster_port(std::weak_ptr<TasterDesk> desk, IdOf<Assessor> assessor,
                                                     TasterSetup setup) {
  auto port = std::make_unique<BlindPort>(std::move(desk), assessor, std::move(setup));
  if (auto ready = port->refresh(); !ready) return tl::unexpected<Error>(ready.error());
  return std::unique_ptr<TasterPort>(std::move(port));
}

}  // namespace likeleaf
