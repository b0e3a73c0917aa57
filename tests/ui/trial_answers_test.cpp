// What the start screen says of a trial is worked out beside the window, and once.
#include "ui/start/trial_answers.h"

#include <gtest/gtest.h>

#include <QtTest>
#include <atomic>
#include <semaphore>

#include "core/base/clock.h"
#include "core/evidence/find.h"
#include "program.h"
#include "ui/window/qt_dispatcher.h"

namespace likeleaf::test {
namespace {

struct Book {
  SampleFolder folder;
  SystemClock clock;
  SystemEntropy entropy;
  ui::QtDispatcher dispatcher;
  std::unique_ptr<Session> session =
      Session::open(folder.book().toStdString(), OpenWay::write, {clock, entropy, dispatcher}).value();
  [[nodiscard]] store::LedgerRow unmasked() const {
    for (auto& row : session->ledger())
      if (row.stage == Stage::unmasked) return row;
    throw std::runtime_error("no unmasked trial in the sample");
  }
};

TEST(TrialAnswers, long_work_lets_the_window_go_on_and_is_done_once) {
  Book book;
  std::binary_semaphore go(0);
  std::atomic<int> runs = 0;
  ui::TrialAnswers answers(nullptr);
  answers.set_finder([&](const Unmasked& unmasked, const std::stop_token&, const Progress&) {
    ++runs;
    go.acquire();
    return evidence::find(unmasked);
  });
  int ready = 0;
  answers.on_ready = [&] { ++ready; };
  const auto row = book.unmasked();
  EXPECT_TRUE(answers.answer_for(*book.session, row, {}).waiting);  // would never return if it were worked out here
  EXPECT_TRUE(QTest::qWaitFor([&] { return ready == 1; }));         // long enough to be told
  EXPECT_EQ(answers.answer_for(*book.session, row, {}).empty, QStringLiteral("Working it out."));
  go.release();
  ASSERT_TRUE(QTest::qWaitFor([&] { return ready == 2; }, 60'000));
  for (int key = 0; key < 5; ++key) {
    const auto said = answers.answer_for(*book.session, row, {});
    EXPECT_FALSE(said.waiting);
    EXPECT_FALSE(said.headline.isEmpty());
  }
  EXPECT_EQ(runs, 1);
}

TEST(TrialAnswers, a_changed_book_is_read_again_but_its_flips_are_known) {
  Book book;
  auto shelf = std::make_shared<ui::FindingsShelf>();
  ui::TrialAnswers answers(shelf);
  bool ready = false;
  answers.on_ready = [&] { ready = true; };
  const auto row = book.unmasked();
  const auto ask = [&] {
    ready = false;
    const auto now = answers.answer_for(*book.session, row, {});
    if (!now.waiting) return now;
    EXPECT_TRUE(QTest::qWaitFor([&] { return ready && !answers.answer_for(*book.session, row, {}).waiting; }, 60'000));
    return answers.answer_for(*book.session, row, {});
  };
  const auto first = ask();
  const auto flips = shelf->memo.worked_out();
  EXPECT_GT(flips, 0U);
  answers.forget();
  EXPECT_EQ(ask().headline, first.headline);
  EXPECT_EQ(shelf->memo.worked_out(), flips);
}

}  // namespace
}  // namespace likeleaf::test
