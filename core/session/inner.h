#pragma once
// The session's insides, shared by its source files.
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "core/session/session.h"
#include "core/session/taster_desk.h"
#include "core/store/book.h"
#include "core/store/writer.h"

namespace likeleaf {

/// Who wants to hear. Outlived by nothing it needs: subscriptions and posted news hold it weakly.
struct Listeners {
  std::map<std::uint64_t, std::function<void(const Notice&)>> change;
  std::map<std::uint64_t, std::function<void(const Kept&)>> kept;
  std::uint64_t next = 1;
};

struct History {
  std::vector<Command> undo, redo;
};

struct Session::Inner {
  enum class Track { fresh, undo, redo };

  Inner(const Services& given, std::unique_ptr<store::Book> opened) : services(given), book(std::move(opened)) {}

  static Result<std::unique_ptr<Session>> start(const Services& services, Result<std::unique_ptr<store::Book>> book);
  Result<void> load();

  /// Refused while the book is read-only.
  [[nodiscard]] Result<void> may_write() const;
  Result<Ticket> perform(const Command& command, Track track);
  void remember(const Change& change, Track track);
  void forget(const Command& done);
  void tell(const Notice& notice) const;
  /// What is on disk is what was done; an error when something could not be written.
  Result<void> settled() const;
  Result<Ticket> keep(store::Writer::Job job);

  Services services;
  std::unique_ptr<store::Book> book;
  std::unique_ptr<store::Writer> writer;  ///< none while the book is read-only; ends before the book
  std::shared_ptr<Listeners> listeners = std::make_shared<Listeners>();
  Registers registers;
  std::vector<Attribute> attributes;
  std::shared_ptr<const Trial> trial;
  std::map<Scope, History> histories;
  std::shared_ptr<TasterDesk> desk;  ///< of the trial on the bench; replaced with it
};

using FlightReader = std::function<Result<std::vector<BlindServing>>(IdOf<Assessor>)>;
/// The open side of the trial on the bench of `session`; refuses once another trial is there.
std::shared_ptr<TasterDesk> make_taster_desk(Session& session, FlightReader read_flight);
/// What a taster may see of a sealed plan.
TasterSetup taster_setup(const SealedPlan& sealed, IdOf<Assessor> assessor);

}  // namespace likeleaf
