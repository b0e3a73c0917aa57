// Every guard of the schema is attacked on a connection of its own, as a foreign tool would.
#include <sqlite3.h>

#include <charconv>

#include "tests/core/store/bench_book.h"

namespace likeleaf::test {
namespace {

class Attack : public ::testing::Test {
 protected:
  void SetUp() override {
    {
      auto session = new_bench(folder_ / "a.leafbook", world_);
      trial_ = sealed_trial(*session).text();
      const FerryPier pier;
      session->run(OpenKey{pier.o}).value();
      const auto brew = session->trial()->brews.begin()->first;
      session->run(TickWeighed{pier.l25}).value();
      session->run(PutStamp{brew, StampKind::pour_start}).value();
      session->run(PutReading{brew, celsius(84), "kettle"}).value();
      session->run(PutServed{{session->trial()->servings.front().pair, world_.clock.now(), {}, {}}}).value();
      session->run(VoidPair{session->trial()->servings.back().pair, "H.", "spilt"}).value();
      const auto locked = live_servings(*session->trial()).front()->id;
      const auto open = live_servings(*session->trial()).back()->id;
      locked_ = locked.text();
      open_ = open.text();
      for (const auto serving : {open, locked}) {
        session->run(StartSheet{serving, EnteredBy::paper}).value();
        session->run(PutSecondReading{serving, Side::left, "body", *Score::from_halves(10)}).value();
        session->run(PutSecondAnswer{serving, "bitterness", Direct::left_more}).value();
      }
      fill_sheet(*session, open);
      fill_sheet(*session, locked);
      session->run(PutDirect{locked, "bitterness", Direct::left_more}).value();
      session->run(PutWords{locked, Side::left, {{"hay", 1}}}).value();
      session->run(LockSheet{locked, true}).value();
      session->run(Exclude{locked, "H.", "a cold"}).value();
      Amendment amendment;
      amendment.serving = locked;
      amendment.side = Side::left;
      amendment.field = "bitterness";
      amendment.new_value = "7";
      amendment.who = "H.";
      amendment.why = "read wrong";
      session->run(Amend{amendment}).value();
      done(session->flush());
    }
    reach();
  }
  void reach() { ASSERT_EQ(sqlite3_open((folder_ / "a.leafbook").c_str(), &db_), SQLITE_OK); }
  void TearDown() override { sqlite3_close(db_); }

  /// Fills in $T (trial), $L (a locked sheet's serving), $O (an open one's).
  std::string fill(std::string sql) const {
    for (const auto& [mark, value] : {std::pair{"$T", trial_}, {"$L", locked_}, {"$O", open_}})
      for (auto at = sql.find(mark); at != std::string::npos; at = sql.find(mark))
        sql.replace(at, 2, "'" + value + "'");
    return sql;
  }
  int run(const std::string& sql) { return sqlite3_exec(db_, fill(sql).c_str(), nullptr, nullptr, nullptr); }
  void refused(const std::string& sql) {
    EXPECT_EQ(run(sql), SQLITE_CONSTRAINT) << sql << ": " << sqlite3_errmsg(db_);
    // Refused by a guard of ours, not by some other constraint that happens to be in the way.
    EXPECT_EQ(sqlite3_extended_errcode(db_), SQLITE_CONSTRAINT_TRIGGER) << sql << ": " << sqlite3_errmsg(db_);
  }
  void taken(const std::string& sql) {
    EXPECT_EQ(run("SAVEPOINT s"), SQLITE_OK);
    EXPECT_EQ(run(sql), SQLITE_OK) << sql << ": " << sqlite3_errmsg(db_);
    EXPECT_GT(sqlite3_changes(db_), 0) << sql;
    run("ROLLBACK TO s; RELEASE s");
  }

  Folder folder_;
  World world_;
  std::string trial_, locked_, open_;
  sqlite3* db_ = nullptr;
};

TEST_F(Attack, ALockedSheetStandsAndAnOpenOneDoesNot) {
  for (const char* table : {"mark", "direct", "word", "second_reading"}) {
    const std::string t = table;
    refused("UPDATE " + t + " SET serving = serving WHERE serving = $L");
    refused("DELETE FROM " + t + " WHERE serving = $L");
    refused("INSERT OR REPLACE INTO " + t + " SELECT * FROM " + t + " WHERE serving = $L");
  }
  refused("INSERT INTO mark VALUES ($L, 'left', 'new', '{}')");
  refused("INSERT INTO direct VALUES ($L, 'new', 'left_more')");
  refused("INSERT INTO word VALUES ($L, 'left', 9, 'new', NULL)");
  refused("INSERT INTO second_reading VALUES ($L, 'left', 'new', '{}')");
  taken("UPDATE second_reading SET value = '{}' WHERE serving = $O");
  taken("DELETE FROM second_reading WHERE serving = $O");
  refused("UPDATE mark SET serving = $L WHERE serving = $O AND field = 'body' AND side = 'left'");
  taken("UPDATE mark SET value = '{}' WHERE serving = $O");
  taken("DELETE FROM mark WHERE serving = $O");
  taken("INSERT INTO mark VALUES ($O, 'left', 'new', '{}')");
  refused("UPDATE sheet SET note = 'better' WHERE serving = $L");
  refused("UPDATE sheet SET note = 'better', guess = '{}' WHERE serving = $L");
  refused("UPDATE sheet SET locked = NULL, digest = NULL WHERE serving = $L");
  refused("UPDATE sheet SET digest = 'x', guess = '{}' WHERE serving = $L");
  refused("DELETE FROM sheet WHERE serving = $L");
  refused("REPLACE INTO sheet SELECT * FROM sheet WHERE serving = $L");
  taken("UPDATE sheet SET note = 'better' WHERE serving = $O");
  taken("UPDATE sheet SET guess = '{}' WHERE serving = $L");
  ASSERT_EQ(run("UPDATE sheet SET guess = '{}' WHERE serving = $L"), SQLITE_OK);
  refused("UPDATE sheet SET guess = '{\"x\":1}' WHERE serving = $L");
}

TEST_F(Attack, SealKeyAndPlanStandForEver) {
  for (const std::string t : {"seal", "trial_key"}) {
    refused("UPDATE " + t + " SET document = '{}'");
    refused("DELETE FROM " + t);
    refused("REPLACE INTO " + t + " SELECT * FROM " + t);
  }
  refused("UPDATE trial SET draft = '{}'");
  refused("UPDATE trial SET number = 77");
  refused("DELETE FROM trial");
  refused("REPLACE INTO trial SELECT * FROM trial");
  refused(
      "REPLACE INTO trial SELECT 'other', number, 99, question, changes, lever, created, import_digest, draft FROM "
      "trial");
  refused(
      "REPLACE INTO trial SELECT 'other', 99, position, question, changes, lever, created, import_digest, draft FROM "
      "trial");
  for (const std::string t : {"trial_lot", "trial_assessor"}) {
    refused("UPDATE " + t + " SET position = position + 10");
    refused("DELETE FROM " + t);
    refused("INSERT INTO " + t + " VALUES ($T, 99, 'x')");
  }
  refused("UPDATE serving SET document = '{}'");
  refused("DELETE FROM serving");
  refused("REPLACE INTO serving SELECT * FROM serving");
}

TEST_F(Attack, StampsAndTheLogOfTheKeyAreOnlyAddedTo) {
  refused("UPDATE stamp SET document = '{}'");
  refused("DELETE FROM stamp");
  refused("REPLACE INTO stamp SELECT * FROM stamp");
  ASSERT_EQ(run("UPDATE stamp SET undone = '2026-03-02T13:32:10.000+01:00', undone_boot_ms = 0"), SQLITE_OK);
  refused("UPDATE stamp SET undone = NULL");
  refused("UPDATE key_opening SET preparer = 'x'");
  refused("DELETE FROM key_opening");
  refused("REPLACE INTO key_opening SELECT * FROM key_opening");
  ASSERT_EQ(run("UPDATE key_opening SET closed = '2026-03-02T13:32:10.000+01:00'"), SQLITE_OK);
  refused("UPDATE key_opening SET closed = NULL");
  ASSERT_EQ(run("INSERT INTO report VALUES ('r', $T, 1, '2026-03-03T16:40:00.000+01:00', 'p', 't', 'PDF', '{}')"),
            SQLITE_OK);
  refused("REPLACE INTO report SELECT 'other', trial, position, made, program, title, form, document FROM report");
  for (const std::string t : {"void", "exclusion", "amendment", "report"}) {
    refused("UPDATE " + t + " SET document = '{}'");
    refused("DELETE FROM " + t);
    refused("REPLACE INTO " + t + " SELECT * FROM " + t);
  }
  refused("REPLACE INTO void SELECT trial, 99, pair, document FROM void");
}

TEST_F(Attack, AfterTheUnmaskNothingOfTheKeyedSideChanges) {
  taken("UPDATE brew SET document = '{}'");
  taken("DELETE FROM reading");
  taken("UPDATE served SET document = '{}'");
  taken("DELETE FROM weighed");
  ASSERT_EQ(run("INSERT INTO unmask VALUES ($T, '2026-03-02T13:32:10.000+01:00', '{}')"), SQLITE_OK);
  refused("UPDATE unmask SET document = '{\"x\":1}'");
  refused("DELETE FROM unmask");
  refused("REPLACE INTO unmask SELECT * FROM unmask");
  for (const std::string t : {"brew", "stamp", "reading", "served", "weighed"}) {
    const std::string first = t == "stamp" || t == "reading" ? "brew" : t == "brew" ? "id" : "trial";
    refused("UPDATE " + t + " SET " + first + " = " + first);
    refused("DELETE FROM " + t);
    refused("REPLACE INTO " + t + " SELECT * FROM " + t);
  }
  // Nor does anything of another trial come to stand in it.
  ASSERT_EQ(run("INSERT INTO brew VALUES ('b', 't', '{}'); INSERT INTO reading VALUES ('b', 50, '{}');"
                "INSERT INTO served VALUES ('t', 'p', '{}'); INSERT INTO weighed VALUES ('t', 'l', 50)"),
            SQLITE_OK);
  taken("UPDATE reading SET position = 51 WHERE brew = 'b'");
  refused("UPDATE reading SET brew = (SELECT id FROM brew WHERE trial = $T LIMIT 1) WHERE brew = 'b'");
  for (const std::string t : {"brew", "served", "weighed"})
    refused("UPDATE " + t + " SET trial = $T WHERE trial = 't'");
  refused("INSERT INTO brew VALUES ('x', $T, '{}')");
  refused("INSERT INTO stamp SELECT brew, 99, document, NULL, NULL FROM stamp");
  refused("INSERT INTO reading SELECT brew, 99, document FROM reading");
  refused("INSERT INTO served VALUES ($T, 'x', '{}')");
  refused("INSERT INTO weighed VALUES ($T, 'x', 99)");
  refused("INSERT INTO serving VALUES ('x', $T, 999, 'x', 'x', '{}')");
  refused(
      "INSERT INTO sheet (serving, trial, entered_by, note, left_fault, left_fault_note, right_fault, "
      "right_fault_note) "
      "SELECT id, $T, 'screen', '', 0, '', 0, '' FROM serving WHERE id NOT IN (SELECT serving FROM sheet)");
  taken("INSERT INTO amendment VALUES ($T, 99, '{}')");
  taken("INSERT INTO exclusion VALUES ($T, 99, '{}')");
}

TEST_F(Attack, EveryGuardOfTheSchemaIsNamedHere) {
  // A new guard needs its attack above; this count makes sure that it is thought of.
  int guards = 0;
  sqlite3_exec(
      db_, "SELECT count(*) FROM sqlite_master WHERE type = 'trigger'",
      [](void* count, int, char** values, char**) {
        std::from_chars(values[0], values[0] + std::string_view(values[0]).size(), *static_cast<int*>(count));
        return 0;
      },
      &guards, nullptr);
  EXPECT_EQ(guards, 71);
}

TEST_F(Attack, WhatIsChangedBehindTheGuardsIsFoundByTheDigests) {
  ASSERT_EQ(run("DROP TRIGGER mark_update_locked; DROP TRIGGER seal_update; DROP TRIGGER trial_key_update"), SQLITE_OK);
  ASSERT_EQ(
      run("UPDATE mark SET value = '{\"half_points\":1}' WHERE serving = $L AND field = 'body' AND side = 'left'"),
      SQLITE_OK);
  ASSERT_EQ(run("UPDATE seal SET document = replace(document, 'take the edge off', 'change the edges')"), SQLITE_OK);
  ASSERT_EQ(run("UPDATE trial_key SET document = replace(document, '\"portion\":1,', '\"portion\":2,')"), SQLITE_OK);
  sqlite3_close(db_);
  {
    auto session = Session::open(folder_ / "a.leafbook", OpenWay::read_only, world_.services());
    ASSERT_OK(session);
    std::set<std::string> fields;
    for (const auto& finding : (*session)->check_book().findings) fields.insert(finding.field);
    EXPECT_EQ(fields, (std::set<std::string>{"key", "sealed plan", "sheet " + locked_}));
  }
  reach();
}

}  // namespace
}  // namespace likeleaf::test
