// The command line as a user meets it: what it prints, what it writes, and how it refuses (2 bad use, 3 bad input, one
// line on standard error that says what and where).
#include <gtest/gtest.h>

#include <QFile>
#include <QFileInfo>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QRegularExpression>
#include <QStandardPaths>

#include "program.h"

namespace likeleaf::test {
namespace {

void write(const QString& path, const QByteArray& bytes) {
  QFile f(path);
  ASSERT_TRUE(f.open(QIODevice::WriteOnly));
  f.write(bytes);
}

QByteArray read(const QString& path) {
  QFile f(path);
  return f.open(QIODevice::ReadOnly) ? f.readAll() : QByteArray();
}

void refused(const Ran& ran, int code, const QStringList& says) {
  EXPECT_EQ(ran.code, code) << ran.err.toStdString();
  EXPECT_EQ(ran.err.trimmed().count(QLatin1Char('\n')), 0) << "one line: " << ran.err.toStdString();
  for (const auto& word : says)
    EXPECT_TRUE(ran.err.contains(word, Qt::CaseInsensitive)) << word.toStdString() << " in: " << ran.err.toStdString();
}

TEST(CommandLine, findings_say_answer_scope_rule_and_reasons) {
  const SampleFolder s;
  ASSERT_EQ(s.made().code, 0) << s.made().err.toStdString();
  const Ran ran = run({"findings", s.book(), "--trial", "14"});
  EXPECT_EQ(ran.code, 0) << ran.err.toStdString();
  for (const char* wanted : {"More bitter at 88\u00A0°C. Body holds. Sweetness is open.", "9\u00A0brew pairs",
                             "36\u00A0tasted pairs", "Written before tasting", "Met.", "Drift", "Blanks"})
    EXPECT_TRUE(ran.out.contains(QString::fromUtf8(wanted))) << wanted;
  const Ran json = run({"findings", s.book(), "--trial", "14", "--json"});
  const auto doc = QJsonDocument::fromJson(json.out.toUtf8());
  ASSERT_TRUE(doc.isObject());
  EXPECT_EQ(doc.object()["brew_pairs"].toInt(), 9);
  EXPECT_FALSE(json.out.contains("nan", Qt::CaseInsensitive) && json.out.contains(": nan"));
  EXPECT_FALSE(json.out.contains("\"seed\"") || json.out.contains("\"salt\""));
}

/// The sample's trial 15 as a bundle with another alias for its first assessor, its digests left as they are.
QByteArray with_alias(const SampleFolder& s, const QString& alias) {
  EXPECT_EQ(run({"export", s.book(), "--trial", "15", "--out", s.file("out")}).code, 0);
  auto bundle = QJsonDocument::fromJson(read(s.file("out/trial-15.json"))).object();
  auto trial = bundle["trial"].toObject(), sealed = trial["sealed"].toObject(),
       registers = sealed["registers"].toObject();
  auto people = registers["assessors"].toArray();
  auto person = people[0].toObject();
  person["alias"] = alias;
  people[0] = person;
  registers["assessors"] = people;
  sealed["registers"] = registers;
  trial["sealed"] = sealed;
  bundle["trial"] = trial;
  return QJsonDocument(bundle).toJson();
}

TEST(CommandLine, prints_nothing_that_steers_a_terminal) {
  const SampleFolder s;
  const auto calm = [](const Ran& ran) {
    for (const QChar c : ran.out + ran.err) {
      EXPECT_TRUE(c == QLatin1Char('\n') || !c.isNull());
      EXPECT_FALSE((c.unicode() < 0x20 && c != QLatin1Char('\n')) || (c.unicode() >= 0x7F && c.unicode() < 0xA0) ||
                   (c.unicode() >= 0x202A && c.unicode() <= 0x202E))
          << static_cast<int>(c.unicode());
    }
  };
  for (const char* name : {"K\x1B[2J", "K\u009B31m", "\u202Etxet"}) {
    const Ran ran = run({"findings", s.file(QString::fromUtf8(name)), "--trial", "14"});
    EXPECT_EQ(ran.code, 3);
    calm(ran);
    calm(run({"report", s.book(), "--trial", "14", "--out", s.file(QString::fromUtf8(name))}));
    calm(run({QString::fromUtf8(name), "--no-such"}));
    calm(run({"findings", s.book(), "--trial", QString::fromUtf8(name)}));
    write(s.file("b.json"), with_alias(s, QString::fromUtf8(name)));
    calm(run({"import", s.file("b.json"), "--into", s.file("new.leafbook")}));
  }
}

TEST(CommandLine, a_name_that_is_too_long_comes_in_by_no_door_and_closes_no_book) {
  const SampleFolder s;
  const QString many(200'000, QLatin1Char('K'));
  write(s.file("b.json"), with_alias(s, QString(61, QLatin1Char('K'))));
  refused(run({"import", s.file("b.json"), "--into", s.book()}), 3, {"assessor", "at most 60 characters"});
  write(s.file("key.csv"), "code,lot,brew pair,level\n101,L-90,1,88 °C\n202,L-90,1,68 °C\n");
  const QByteArray head = "code,assessor,attribute,value,first cup\n";
  write(s.file("sheets.csv"), head + "101," + many.toUtf8() + ",body,4,101\n");
  const QStringList paper{"import", s.file("sheets.csv"), "--key",     s.file("key.csv"), "--into",
                          s.book(), "--tasted-on",        "2026-03-02"};
  const Ran ran = run(paper);
  refused(ran, 3, {"assessor", "at most 60 characters", "sheets.csv, line 2"});
  EXPECT_LT(ran.err.size(), 400);
  write(s.file("sheets.csv"), head + "101,K.,body,4,101\n202,K.,body,5,\n");
  refused(run(paper + QStringList{"--house", QString(61, QLatin1Char('h'))}), 3, {"house", "at most 60 characters"});
  EXPECT_EQ(run({"check", s.book()}).code, 0);
  EXPECT_EQ(run({"findings", s.book(), "--trial", "14"}).code, 0);
}

TEST(CommandLine, export_of_a_plan_writes_its_bundle_and_the_bundle_comes_in_again) {
  const SampleFolder s;
  ASSERT_EQ(run({"export", s.book(), "--trial", "15", "--out", s.file("out")}).code, 0);
  auto bundle = QJsonDocument::fromJson(read(s.file("out/trial-15.json"))).object();
  const auto trial = bundle["trial"].toObject(), sealed = trial["sealed"].toObject();
  bundle["trial"] = QJsonObject{{"created", trial["created"]},
                                {"draft", QJsonObject{{"plan", sealed["plan"]},
                                                      {"registers", sealed["registers"]},
                                                      {"attributes", sealed["attributes"]}}}};
  write(s.file("draft.json"), QJsonDocument(bundle).toJson());
  const QString book = s.file("drafts.leafbook");
  ASSERT_EQ(run({"import", s.file("draft.json"), "--into", book}).code, 0);
  const Ran ran = run({"export", book, "--trial", "15", "--out", s.file("drafts")});
  EXPECT_EQ(ran.code, 0) << ran.err.toStdString();
  EXPECT_EQ(QDir(s.file("drafts")).entryList(QDir::Files), QStringList{"trial-15.json"});
  const Ran again = run({"import", s.file("drafts/trial-15.json"), "--into", book});
  EXPECT_TRUE(again.out.contains("unchanged")) << again.out.toStdString() << again.err.toStdString();
}

TEST(CommandLine, report_is_a_pdf_whose_text_stays_text_and_a_self_contained_page) {
  const SampleFolder s;
  const QString pdf = s.file("trial 14.pdf"), html = s.file("trial-14.html");
  ASSERT_EQ(run({"report", s.book(), "--trial", "14", "--out", pdf}).code, 0);
  ASSERT_EQ(run({"report", s.book(), "--trial", "14", "--out", html}).code, 0);
  const QByteArray page = read(html);
  EXPECT_GT(page.count("<svg"), 3);
  EXPECT_FALSE(page.contains("<script") || page.contains("src="));
  const QString pdftotext = QStandardPaths::findExecutable("pdftotext");
  if (pdftotext.isEmpty()) GTEST_SKIP() << "no pdftotext here";
  QProcess p;
  p.start(pdftotext, {pdf, "-"});
  ASSERT_TRUE(p.waitForFinished(60'000));
  QString text = QString::fromUtf8(p.readAllStandardOutput());
  text.replace(QChar(0xA0), QLatin1Char(' '));
  // Every minus sign and number of the annex has to be found again.
  for (const char* wanted : {"\u22121", "+1", "±1", "Taste it yourself", "How we brewed", "What we do not know",
                             "Annex", "scalds", "88 °C minus 68 °C"})
    EXPECT_TRUE(text.contains(QString::fromUtf8(wanted))) << wanted;
  EXPECT_TRUE(text.contains(QRegularExpression("[0-9a-f]{64}")) ||
              text.remove(QLatin1Char('\n')).contains(QRegularExpression("[0-9a-f]{64}")))
      << "the digests are whole";
  EXPECT_FALSE(text.contains(QChar(0xFFFD)));
}

TEST(CommandLine, every_page_of_a_report_is_drawn_without_a_complaint) {
  const QString pdftoppm = QStandardPaths::findExecutable("pdftoppm");
  if (pdftoppm.isEmpty()) GTEST_SKIP() << "no pdftoppm here";
  const SampleFolder s;
  for (const char* number : {"14", "15", "16"}) {
    const QString pdf = s.file("trial.pdf");
    ASSERT_EQ(run({"report", s.book(), "--trial", number, "--out", pdf}).code, 0);
    QProcess p;
    p.start(pdftoppm, {"-r", "20", "-png", pdf, s.file("page")});
    ASSERT_TRUE(p.waitForFinished(60'000));
    EXPECT_EQ(p.exitCode(), 0);
    // A line of no length, as two equal means once made, is a path without a point.
    EXPECT_EQ(p.readAllStandardError().toStdString(), "") << number;
  }
}

TEST(CommandLine, exporting_and_importing_again_changes_nothing) {
  const SampleFolder s;
  ASSERT_EQ(run({"export", s.book(), "--trial", "14", "--out", s.file("out")}).code, 0);
  for (const char* name :
       {"out/trial-14.json", "out/trial-14-marks.csv", "out/trial-14-words.csv", "out/trial-14-brews.csv"})
    EXPECT_TRUE(QFileInfo::exists(s.file(name))) << name;
  const Ran again = run({"import", s.file("out/trial-14.json"), "--into", s.book()});
  EXPECT_EQ(again.code, 0) << again.err.toStdString();
  EXPECT_TRUE(again.out.contains("already"));
  ASSERT_EQ(run({"import", s.file("out/trial-14.json"), "--into", s.file("new.leafbook")}).code, 0);
  EXPECT_EQ(run({"findings", s.book(), "--trial", "14"}).out,
            run({"findings", s.file("new.leafbook"), "--trial", "14"}).out);
}

TEST(CommandLine, a_finished_paper_trial_starts_from_two_tables) {
  const SampleFolder s;
  QByteArray sheets = "code,assessor,attribute,value,first cup\n", key = "code,lot,brew pair,level\n";
  int code = 101;
  for (int pair = 1; pair <= 6; ++pair) {
    const QByteArray a = QByteArray::number(code++), b = QByteArray::number(code++);
    key += a + ",X-1," + QByteArray::number(pair) + ",80 °C\n" + b + ",X-1," + QByteArray::number(pair) + ",70 °C\n";
    for (int who = 0; who < 2; ++who) {
      const QByteArray name = who == 0 ? "A." : "B.", first = who == 0 ? a : b;
      sheets += a + "," + name + ",bitterness," + QByteArray::number(6 + (pair + who) % 2) + "," + first + "\n";
      sheets += b + "," + name + ",bitterness," + QByteArray::number(3 + pair % 2) + "," + first + "\n";
    }
  }
  write(s.file("sheets.csv"), sheets);
  write(s.file("key.csv"), key);
  const QStringList call{"import",      s.file("sheets.csv"), "--key",      s.file("key.csv"), "--into",   s.book(),
                         "--tasted-on", "2026-03-20",         "--deciding", "bitterness",      "--margin", "1"};
  const Ran done = run(call);
  ASSERT_EQ(done.code, 0) << done.err.toStdString();
  const Ran found = run({"findings", s.book(), "--trial", "1"});
  EXPECT_EQ(found.code, 0) << found.err.toStdString();
  EXPECT_TRUE(found.out.contains(QString::fromUtf8("More bitter at 80\u00A0°C"))) << found.out.toStdString();
  EXPECT_TRUE(found.out.contains("nothing was sealed beforehand"));
  EXPECT_TRUE(run(call).out.contains("already"));
  write(s.file("bad.csv"), "code,assessor,attribute,value,first cup\n101,A.,bitterness,11,101\n");
  refused(
      run({"import", s.file("bad.csv"), "--key", s.file("key.csv"), "--into", s.book(), "--tasted-on", "2026-03-20"}),
      3, {"11", "0 to 10", "bad.csv"});
}

TEST(CommandLine, bad_use_is_2_and_says_so_in_one_line) {
  refused(run({"findings"}), 2, {"required"});
  refused(run({"brew", "--now"}), 2, {});
  refused(run({"findings", "x.leafbook", "--trial", "1", "--loud"}), 2, {"--loud"});
}

TEST(CommandLine, bad_input_is_3_and_names_what_and_where) {
  const SampleFolder s;
  refused(run({"findings", s.book(), "--trial", "99"}), 3, {"99"});
  refused(run({"findings", s.book(), "--trial", "last"}), 3, {"last", "number or id"});
  refused(run({"findings", s.file("none.leafbook"), "--trial", "14"}), 3, {"none.leafbook"});
  refused(run({"report", s.book(), "--trial", "14", "--out", s.file("r.docx")}), 3, {"docx", ".pdf or .html"});
  refused(run({"report", s.book(), "--trial", "14", "--out", s.file("no/such/r.html")}), 3, {"no/such"});
  refused(run({"sample", "--out", s.book()}), 3, {"sample.leafbook"});
  write(s.file("plain.leafbook"), "this is a shopping list, not a book\n");
  refused(run({"check", s.file("plain.leafbook")}), 3, {"plain.leafbook"});
  const QByteArray whole = read(s.book());
  write(s.file("half.leafbook"), whole.left(whole.size() / 2));
  refused(run({"findings", s.file("half.leafbook"), "--trial", "14"}), 3, {"half.leafbook"});
  for (const auto& [name, bytes, says] : std::initializer_list<std::tuple<const char*, QByteArray, const char*>>{
           {"a.json", "not json at all", "a.json"},
           {"b.json", R"({"format":"likeleaf-bundle","version":999})", "newer"},
           {"c.json", QByteArray(10'000, '[') + QByteArray(10'000, ']'), "deep"}}) {
    write(s.file(name), bytes);
    refused(run({"import", s.file(name), "--into", s.book()}), 3, {says});
  }
  EXPECT_EQ(run({"check", s.book()}).code, 0) << "nothing was harmed";
}

}  // namespace
}  // namespace likeleaf::test
