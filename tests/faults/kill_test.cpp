// SIGKILL at 50 random points of scripted scoring: everything acknowledged is there, in order, and the book opens.
// (Ordering only: the page cache outlives a killed process. Durability is durability_test's.)
#include <fcntl.h>
#include <poll.h>
#include <sys/wait.h>
#include <unistd.h>

#include <charconv>
#include <csignal>
#include <random>

#include "tests/core/store/bench_book.h"

namespace likeleaf::test {
namespace {

/// Reads "kept N" lines until the N-th byte count is reached, kills, reads on to the end. The last N seen.
int drive_and_kill(const std::string& book, const std::string& serving, std::size_t bytes_before_kill) {
  int ends[2];
  if (pipe(ends) != 0) return -1;
  const pid_t child = fork();
  if (child == 0) {
    dup2(ends[1], STDOUT_FILENO);
    close(ends[0]);
    close(ends[1]);
    execl(LIKELEAF_KILL_DRIVER, "kill_driver", book.c_str(), serving.c_str(), nullptr);
    _exit(127);
  }
  close(ends[1]);
  std::string said;
  bool killed = false;
  char room[64];
  for (;;) {
    const ssize_t got = read(ends[0], room, sizeof room);
    if (got <= 0) break;
    said.append(room, static_cast<std::size_t>(got));
    if (!killed && said.size() >= bytes_before_kill) {
      kill(child, SIGKILL);
      killed = true;
    }
  }
  close(ends[0]);
  int status = 0;
  waitpid(child, &status, 0);
  EXPECT_TRUE(WIFSIGNALED(status)) << "the driver ended by itself with " << WEXITSTATUS(status);
  // A line cut off by the kill was not said.
  const auto end = said.rfind('\n');
  if (end == std::string::npos) return 0;
  const auto line = said.rfind(' ', end);
  int last = 0;
  std::from_chars(said.data() + line + 1, said.data() + end, last);
  return last;
}

int step_of(const std::string& text) {
  int step = 0;
  if (text.starts_with("step ")) std::from_chars(text.data() + 5, text.data() + text.size(), step);
  return step;
}

TEST(Kill, AtFiftyRandomPointsLosesNothingAcknowledgedAndKeepsTheOrder) {
  std::mt19937 random(20260302);
  int total = 0;
  for (int round = 0; round < 50; ++round) {
    Folder folder;
    World world;
    IdOf<Serving> serving;
    {
      auto session = new_bench(folder / "a.leafbook", world);
      sealed_trial(*session);
      serving = session->trial()->servings.front().id;
      session->run(StartSheet{serving}).value();
      done(session->flush());
    }
    const int acknowledged = drive_and_kill((folder / "a.leafbook").string(), serving.text(), 1 + random() % 900);
    total += acknowledged;
    auto session = Session::open(folder / "a.leafbook", OpenWay::write, world.services());
    ASSERT_OK(session);
    std::vector<int> steps;
    for (const auto& lot : (*session)->registers().lots)
      if (const int step = step_of(lot.code)) steps.push_back(step);
    ASSERT_GE(static_cast<int>(steps.size()), acknowledged) << "round " << round;
    for (std::size_t i = 0; i < steps.size(); ++i) ASSERT_EQ(steps[i], static_cast<int>(i) + 1) << "round " << round;
    done((*session)->take((*session)->ledger().at(0).id));
    const int note = step_of((*session)->trial()->sheets.at(serving)->note);
    const int last = static_cast<int>(steps.size());
    // The note of a step goes before its lot: it is as far, or one step further.
    ASSERT_TRUE(note == last || note == last + 1) << "note " << note << ", lots " << last;
    const auto health = (*session)->check_book();
    ASSERT_TRUE(health.findings.empty()) << words_of(health.findings.front());
  }
  EXPECT_GT(total, 50) << "killed before anything was kept: the test proves nothing";
}

}  // namespace
}  // namespace likeleaf::test
