#include "ui/start/trial_answers.h"

#include <utility>

#include "core/wording/errors.h"
#include "ui/widgets/qt_text.h"

namespace likeleaf::ui {
namespace {

constexpr int say_so_after_ms = 300;

TrialAnswer trouble(const Error& error) {
  TrialAnswer out;
  out.empty = text(wording::sentence(error));
  return out;
}

}  // namespace

TrialAnswers::TrialAnswers(std::shared_ptr<FindingsShelf> shelf, QObject* parent)
    : QObject(parent), work_(std::move(shelf)) {
  slow_.setSingleShot(true);
  slow_.setInterval(say_so_after_ms);
  connect(&slow_, &QTimer::timeout, this, [this] {
    known_.empty = QStringLiteral("Working it out.");
    if (on_ready) on_ready();
  });
  work_.on_done = [this](const AnswerResult& answer) {
    slow_.stop();
    known_ = answer ? said(**answer, style_) : trouble(answer.error());
    if (on_ready) on_ready();
  };
}

TrialAnswer TrialAnswers::answer_for(const Session& session, const store::LedgerRow& row, const Style& style) {
  if (row.stage != Stage::unmasked) {
    forget();
    TrialAnswer out;
    out.empty =
        row.stage == Stage::plan
            ? QStringLiteral("This trial is still a draft.")
            : QStringLiteral("Sealed. What it found is shown once every sheet is locked and the key is opened.");
    return out;
  }
  if (of_ == row.id && style_ == style) return known_;
  forget();
  of_ = row.id;
  style_ = style;
  return known_ = begin(session, row.id, style);
}

TrialAnswer TrialAnswers::begin(const Session& session, IdOf<Trial> id, const Style& style) {
  const auto here = session.trial();
  const auto trial = here && here->id() == id ? Result<std::shared_ptr<const Trial>>(here) : session.read(id);
  if (!trial) return trouble(trial.error());
  auto unmasked = open_unmasked(*trial);
  if (!unmasked) return trouble(unmasked.error());
  TrialAnswer out;
  out.waiting = true;
  slow_.start();
  work_.start(std::move(*unmasked), style);
  return out;
}

void TrialAnswers::forget() {
  work_.stop();
  slow_.stop();
  of_.reset();
}

}  // namespace likeleaf::ui
