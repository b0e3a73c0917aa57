#pragma once
// One open book and the trial on the bench. Confined to its caller's thread; keeps an immutable snapshot; every command
// is checked, swapped in, and handed to the writer, which answers Kept or NotKept through the dispatcher.
#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "core/acts/command.h"
#include "core/acts/trial_import.h"
#include "core/acts/unmask.h"
#include "core/base/clock.h"
#include "core/base/entropy.h"
#include "core/base/result.h"
#include "core/base/style.h"
#include "core/base/task.h"
#include "core/domain/made_report.h"
#include "core/domain/opening_note.h"
#include "core/session/dispatcher.h"
#include "core/session/news.h"
#include "core/store/health.h"
#include "core/store/ledger.h"
#include "core/store/seams.h"

namespace likeleaf {

class TasterPort;

struct Services {
  const Clock& clock;
  Entropy& entropy;
  Dispatcher& dispatcher;
};

enum class OpenWay { write, read_only };

struct ImportOutcome {
  bool skipped = false;  ///< it was there already, unchanged
  IdOf<Trial> trial;
  int number = 0;  ///< the number it got in this book
};

class Session {
 public:
  /// `seams` replaces what the store asks the system; for tests of faults.
  static Result<std::unique_ptr<Session>> create(const std::filesystem::path& book, const Services& services,
                                                 const store::Seams& seams = {});
  static Result<std::unique_ptr<Session>> open(const std::filesystem::path& book, OpenWay way, const Services& services,
                                               const store::Seams& seams = {});
  ~Session();
  Session(const Session&) = delete;
  Session& operator=(const Session&) = delete;

  [[nodiscard]] const std::filesystem::path& path() const;
  [[nodiscard]] bool read_only() const;
  [[nodiscard]] const std::vector<OpeningNote>& opening_notes() const;

  // The book
  [[nodiscard]] const Registers& registers() const;
  [[nodiscard]] const std::vector<Attribute>& attributes() const;  ///< built in, then the house's own
  [[nodiscard]] std::vector<store::LedgerRow> ledger() const;      ///< newest first
  [[nodiscard]] std::vector<store::TrialName> names() const;       ///< of all trials, newest first; much quicker
  /// What was handed over last to be kept, whether it is on disk yet or not; 0: nothing. While it stays the same, so
  /// does what ledger() says of a book that is on disk.
  [[nodiscard]] Ticket last_ticket() const;
  Result<Ticket> put(const Lot& lot);  ///< adds or changes; code unique, checked
  Result<Ticket> put(const Water& water);
  Result<Ticket> put(const Vessel& vessel);
  Result<Ticket> put(const Assessor& assessor);
  Result<Ticket> put(const Attribute& attribute);
  Result<ImportOutcome> import_trial(const TrialImport& import);  ///< one transaction

  // The trial on the bench
  Result<IdOf<Trial>> new_trial(
      const Plan& start);  ///< gets the next number, or its own if that is higher; becomes the trial on the bench
  Result<void> take(IdOf<Trial> trial);  ///< puts a trial on the bench
  /// Refused with not_found, with the numbers there are around it.
  Result<void> take_number(int number);
  [[nodiscard]] std::shared_ptr<const Trial> trial() const;  ///< nullptr when none
  Result<std::shared_ptr<const Trial>> read(IdOf<Trial> trial) const;
  Result<Ticket> run(const Command& command);
  /// Checks, draws with machine entropy, seals and keeps (a barrier). What stands in the way is said in the reader's
  /// style.
  Result<Ticket> seal(const Style& style = {});
  /// Locks are barriers; this one runs Unmask and waits until it is on disk.
  Result<Ticket> unmask(const std::string& who);
  Result<Unmasked> unmasked() const;

  /// Keeps a report of a trial as it was made; id and time are filled in. Ticket 0: the newest one of that trial has
  /// the same document already. Refused while the trial is masked, or without document.
  Result<Ticket> keep_report(MadeReport report);
  /// What was made of a trial, newest first, without the documents.
  [[nodiscard]] Result<std::vector<MadeReport>> reports(IdOf<Trial> trial) const;
  /// One with its document.
  [[nodiscard]] Result<MadeReport> report(IdOf<MadeReport> id) const;

  [[nodiscard]] bool can_undo(const Scope& scope) const;
  [[nodiscard]] bool can_redo(const Scope& scope) const;
  Result<Ticket> undo(const Scope& scope);
  Result<Ticket> redo(const Scope& scope);

  /// Waits until everything is on disk; the first error that stands.
  Result<void> flush();
  /// Tries again what could not be written.
  void retry();

  [[nodiscard]] Subscription on_change(std::function<void(const Notice&)> hear);
  [[nodiscard]] Subscription on_kept(std::function<void(const Kept&)> hear);

  /// The blind view for one assessor of the trial on the bench; refused before the seal or for someone who does not
  /// taste.
  Result<std::unique_ptr<TasterPort>> taster(IdOf<Assessor> assessor);

  /// A reasoned, verified copy by SQLite's backup.
  Result<void> backup_to(const std::filesystem::path& copy);
  /// The full check of the book on disk: file, rows, digests. Waits for what is being written; takes some 30 ms a
  /// trial.
  [[nodiscard]] store::Health check_book(const std::stop_token& stop = {}, const Progress& progress = {}) const;

 private:
  Session();
  struct Inner;
  std::unique_ptr<Inner> inner_;
};

}  // namespace likeleaf
