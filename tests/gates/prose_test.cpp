// Facts before prose: no file of core, ui or app compares or takes apart a text that the program itself wrote for
// people. Code decides by kinds, fields, indexes and amounts; core/wording alone turns them into sentences.
//
// The gate reads tokens, not types. What it sees:
// - Errors. A name declared as `Error`, or bound by `auto` to `….error()`, and whatever is called `error`: its `field`,
//   `value` or `allowed` may be tested for emptiness, written, and handed on into another error. Outside core/wording
//   every other reading is an offence, so that neither `==` nor a function that looks the text up gets at it; inside,
//   comparing and searching are.
// - Sentences. The result of a function that a header of core/wording declares, and of those that name levers,
//   constants and levels, compared by == or !=, searched or cut; at the call, through a wrapper such as qt(), or by way
//   of a local that was made from it.
// - Labels. text() of what is declared QLabel, a button or a tick in the file or its own header, or made by label() or
//   words(), and currentText() of any list, compared, searched or cut in the same ways.
// - Literals. Two words in a row ("drain now") that something is compared with or searched for, wherever the something
//   comes from.
// - Tables. {"two words", "an.id"}: a table that leads from words for people back to a thing.
// - core/wording itself: a text that it is given as a parameter, searched or cut.
// What it cannot see: a sentence that went through a member, a column or a function of another file before it is
// compared with a single word.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>
#include <optional>
#include <set>

#include "sources.h"

namespace likeleaf::gates {
namespace {

using ::testing::IsEmpty;
using ::testing::SizeIs;

struct Token {
  std::string text;
  int line = 1;
};
using Tokens = std::vector<Token>;

bool is_name(std::string_view token) {
  return !token.empty() && (std::isalpha(static_cast<unsigned char>(token[0])) != 0 || token[0] == '_');
}

bool is_literal(std::string_view token) {
  return !token.empty() && token[0] == '"';
}

/// Names, numbers, whole string literals, ==, !=, ->, ::, and every other mark alone.
Tokens tokens_of(std::string_view text) {
  const std::string code = code_of(text, Literals::keep);
  Tokens out;
  int line = 1;
  for (std::size_t i = 0; i < code.size();) {
    const auto in_word = [&](std::size_t at) {
      return at < code.size() && (std::isalnum(static_cast<unsigned char>(code[at])) != 0 || code[at] == '_');
    };
    std::size_t end = i;
    while (in_word(end)) ++end;
    if (end == i && (code[i] == '"' || code[i] == '\'')) {
      for (++end; end < code.size() && code[end] != code[i] && code[end] != '\n'; ++end)
        if (code[end] == '\\') ++end;
      end = std::min(end + 1, code.size());
    } else if (end == i && std::isspace(static_cast<unsigned char>(code[i])) == 0) {
      const std::string_view two = std::string_view(code).substr(i, 2);
      end = i + (two == "==" || two == "!=" || two == "->" || two == "::" ? 2 : 1);
    }
    if (end == i) {
      if (code[i] == '\n') ++line;
      ++i;
      continue;
    }
    out.push_back({code.substr(i, end - i), line});
    i = end;
  }
  return out;
}

/// Two words of two letters or more with one space between.
bool is_prose(std::string_view literal) {
  for (std::size_t at = literal.find(' '); at != std::string_view::npos; at = literal.find(' ', at + 1)) {
    const auto letter = [&](std::size_t i) {
      return i < literal.size() && std::isalpha(static_cast<unsigned char>(literal[i])) != 0;
    };
    if (at >= 2 && letter(at - 1) && letter(at - 2) && letter(at + 1) && letter(at + 2)) return true;
  }
  return false;
}

/// "lever.name", "brew_pairs": no word for people.
bool is_id(std::string_view literal) {
  return literal.size() > 2 && literal.find(' ') == std::string_view::npos &&
         literal.find_first_of("._") != std::string_view::npos;
}

const std::set<std::string_view> looks_into{"find",          "rfind",   "find_first_of",     "starts_with", "ends_with",
                                            "contains",      "substr",  "compare",           "startsWith",  "endsWith",
                                            "indexOf",       "mid",     "lastIndexOf",       "section",     "split",
                                            "remove_prefix", "chopped", "localeAwareCompare"};
const std::set<std::string_view> texts_of_errors{"field", "value", "allowed"};
const std::set<std::string_view> wrappers{"qt", "text", "fromStdString", "string", "string_view", "QString", "move"};
const std::set<std::string_view> widgets{"QLabel",      "QPushButton",  "QAbstractButton", "QCheckBox",
                                         "QToolButton", "QRadioButton", "NoteLink"};

/// One file with what is known of its names.
class Reader {
 public:
  Reader(std::string path, std::string_view text, const std::string& header, const std::set<std::string>& worded)
      : path_(std::move(path)), tokens_(tokens_of(text)), worded_(worded) {
    in_wording_ = path_.starts_with("core/wording/");
    collect(tokens_, true);
    collect(tokens_of(header), false);
  }

  Offences offences() {
    for (at_ = 0; at_ < tokens_.size(); ++at_) {
      look_at_error();
      look_at_call();
      look_at_label();
      look_at_literal();
      look_at_table();
      look_at_given();
    }
    return std::move(offences_);
  }

 private:
  [[nodiscard]] std::string_view token(std::size_t i) const {
    return i < tokens_.size() ? std::string_view(tokens_[i].text) : std::string_view();
  }
  [[nodiscard]] static bool compares(std::string_view mark) { return mark == "==" || mark == "!="; }
  [[nodiscard]] std::string_view before(std::size_t i) const { return i == 0 ? std::string_view() : token(i - 1); }

  void object(std::size_t at, const std::string& what) {
    const std::string offence = path_ + ":" + std::to_string(tokens_[at].line) + ": " + what;
    if (std::ranges::find(offences_, offence) == offences_.end()) offences_.push_back(offence);
  }

  /// Index past the bracket that closes the one at `open`.
  [[nodiscard]] std::size_t past(std::size_t open) const {
    int depth = 0;
    for (std::size_t i = open; i < tokens_.size(); ++i) {
      if (token(i) == "(" || token(i) == "[" || token(i) == "{") ++depth;
      if (token(i) == ")" || token(i) == "]" || token(i) == "}")
        if (--depth == 0) return i + 1;
    }
    return tokens_.size();
  }
  /// Where the block around `at` ends.
  [[nodiscard]] std::size_t end_of_block(std::size_t at) const {
    int depth = 0;
    for (std::size_t i = at; i < tokens_.size(); ++i) {
      if (token(i) == "{") ++depth;
      if (token(i) == "}" && --depth < 0) return i;
    }
    return tokens_.size();
  }
  [[nodiscard]] std::pair<std::size_t, std::size_t> statement(std::size_t at) const {
    std::size_t from = at, to = at;
    while (from > 0 && token(from - 1) != ";" && token(from - 1) != "}") --from;
    while (to < tokens_.size() && token(to) != ";") ++to;
    return {from, to};
  }

  /// Whether the expression at [from, to) is compared, searched or cut, with what is wrapped around it.
  [[nodiscard]] bool is_taken_apart(std::size_t from, std::size_t to) const {
    while (true) {
      if (from > 1 && token(from - 1) == "::" && is_name(token(from - 2))) {
        from -= 2;
      } else if (from > 1 && before(from) == "(" && wrappers.contains(token(from - 2)) && token(to) == ")") {
        from -= 2;
        ++to;
      } else {
        break;
      }
    }
    if (compares(token(to)) || compares(before(from))) return true;
    return (token(to) == "." || token(to) == "->") && looks_into.contains(token(to + 1));
  }

  /// A local that is made in this statement from the text at `at`, then taken apart in the rest of its block.
  void follow(std::size_t at, const std::string& what) {
    const auto [from, to] = statement(at);
    std::size_t equals = from;
    for (std::size_t i = from; i < at; ++i)
      if (token(i) == "=") equals = i;
    if (equals < from + 2 || !is_name(token(equals - 1))) return;
    const std::string_view name = token(equals - 1);
    std::string_view type = token(equals - 2);
    if (type == "&") type = before(equals - 2);
    if (type != "auto" && type != "string" && type != "QString" && type != "string_view") return;
    const std::size_t end = end_of_block(to);
    for (std::size_t i = to; i < end; ++i) {
      if (token(i) != name || before(i) == "." || before(i) == "->" || before(i) == "::") continue;
      std::size_t past_it = i + 1;
      // A sentence that is a member of what was made: said.title == …
      if (type == "auto" && token(past_it) == "." && !looks_into.contains(token(past_it + 1)) &&
          token(past_it + 2) != "(")
        past_it += 2;
      if (is_taken_apart(i, past_it)) object(i, what);
    }
  }

  void collect(const Tokens& tokens, bool own) {
    const auto at = [&](std::size_t i) { return i < tokens.size() ? std::string_view(tokens[i].text) : ""; };
    for (std::size_t i = 0; i < tokens.size(); ++i) {
      std::size_t name = i + 1;
      if (at(i) == "Error" && own) {
        while (at(name) == "&" || at(name) == "*" || at(name) == "const") ++name;
        if (is_name(at(name))) errors_.insert(std::string(at(name)));
      }
      if (widgets.contains(at(i)))
        while (at(name) == "*" && is_name(at(name + 1))) {
          labels_.insert(std::string(at(name + 1)));
          name += at(name + 2) == "," ? 3 : 2;
        }
      if (own && at(i) == "=" && (at(i + 1) == "label" || at(i + 1) == "words") && at(i + 2) == "(" && i > 0)
        labels_.insert(tokens[i - 1].text);
      if (own && at(i) == "error" && at(i + 1) == "(" && at(i + 2) == ")" && at(i + 3) == ";") {
        std::size_t equals = i;
        while (equals > 0 && at(equals) != ";" && at(equals) != "{" && at(equals) != "=") --equals;
        if (at(equals) == "=" && equals > 1 && is_name(at(equals - 1)) &&
            (at(equals - 2) == "auto" || at(equals - 2) == "&"))
          errors_.insert(tokens[equals - 1].text);
      }
      const bool given = in_wording_ && own &&
                         ((at(i) == "string_view" && is_name(at(i + 1)) && (at(i + 2) == "," || at(i + 2) == ")")) ||
                          (at(i) == "string" && at(i + 1) == "&" && is_name(at(i + 2))));
      if (given) given_.insert(std::string(at(at(i + 1) == "&" ? i + 2 : i + 1)));
    }
  }

  void look_at_error() {
    if (!texts_of_errors.contains(token(at_)) || (before(at_) != "." && before(at_) != "->") || at_ < 2) return;
    const std::string_view holder = token(at_ - 2);
    const bool called = holder == ")" && at_ >= 4 && token(at_ - 3) == "(" && token(at_ - 4) == "error";
    if (!called && holder != "error" && !errors_.contains(std::string(holder))) return;
    std::size_t from = called ? at_ - 4 : at_ - 2;
    while (from > 1 && (before(from) == "." || before(from) == "->")) from -= 2;
    if (token(at_ + 1) == "." && token(at_ + 2) == "empty") return;
    if (token(at_ + 1) == "=") return;
    if (is_taken_apart(from, at_ + 1)) return object(at_, "the text of an error is compared or taken apart");
    if (in_wording_) return;
    if (!is_handed_on(at_)) object(at_, "the text of an error is read outside core/wording");
  }

  /// Whether one of the brackets around `at` makes another error, or the statement writes a text of one.
  [[nodiscard]] bool is_handed_on(std::size_t at) const {
    const std::size_t from = statement(at).first;
    if (errors_.contains(std::string(token(from))) && texts_of_errors.contains(token(from + 2)) &&
        token(from + 3) == "=")
      return true;
    int depth = 0;
    for (std::size_t i = at; i > 0 && token(i) != ";"; --i) {
      if (token(i) == ")" || token(i) == "}" || token(i) == "]") ++depth;
      if (token(i) != "(" && token(i) != "{" && token(i) != "[") continue;
      if (--depth >= 0) continue;
      depth = 0;
      const std::string_view made = before(i);
      if (made == "fail" || made == "Error" || made == "BadRow" || token(i + 1) == "ErrorKind") return true;
    }
    return false;
  }

  void look_at_call() {
    if (!worded_.contains(std::string(token(at_))) || token(at_ + 1) != "(") return;
    // Its own declaration is no call; nor is a method of that name.
    if (before(at_) == "." || before(at_) == "->" || before(at_) == "string") return;
    const std::size_t end = past(at_ + 1);
    const std::string what = "what " + std::string(token(at_)) + "() says is compared or taken apart";
    std::size_t past_it = end;
    if (token(end) == "." && token(end + 2) != "(") past_it = end + 2;  // a member: finding_text(…).title
    if (is_taken_apart(at_, past_it)) return object(at_, what);
    follow(at_, what);
  }

  void look_at_label() {
    const bool own_text = token(at_) == "text" && at_ >= 2 && labels_.contains(std::string(token(at_ - 2)));
    const bool of_list = token(at_) == "currentText";
    if ((!own_text && !of_list) || before(at_) != "->" || token(at_ + 1) != "(") return;
    const std::string what = "the text of a control is compared or taken apart";
    if (is_taken_apart(at_ - 2, past(at_ + 1))) return object(at_, what);
    follow(at_, what);
  }

  void look_at_literal() {
    if (!is_literal(token(at_)) || !is_prose(token(at_))) return;
    std::size_t from = at_, to = at_ + 1;
    while (from > 1 && before(from) == "(" &&
           (token(from - 2) == "QStringLiteral" || token(from - 2) == "QLatin1String" ||
            wrappers.contains(token(from - 2)))) {
      from -= 2;
      ++to;
    }
    const bool searched = before(from) == "(" && from > 2 && looks_into.contains(token(from - 2)) &&
                          (token(from - 3) == "." || token(from - 3) == "->");
    if (searched || compares(before(from)) || compares(token(to)))
      object(at_, "a text is compared with or searched for " + std::string(token(at_)));
  }

  void look_at_table() {
    if (token(at_) == "{" && is_literal(token(at_ + 1)) && is_prose(token(at_ + 1)) && token(at_ + 2) == "," &&
        is_literal(token(at_ + 3)) && is_id(token(at_ + 3)) && token(at_ + 4) == "}")
      object(at_, "a table leads from " + std::string(token(at_ + 1)) + " back to a thing");
  }

  void look_at_given() {
    if (!in_wording_ || !given_.contains(std::string(token(at_))) || token(at_ + 1) != ".") return;
    if (before(at_) != "." && before(at_) != "->" && looks_into.contains(token(at_ + 2)) && token(at_ + 3) == "(")
      object(at_, "core/wording looks into a text that it was given");
  }

  std::string path_;
  Tokens tokens_;
  const std::set<std::string>& worded_;
  bool in_wording_ = false;
  std::set<std::string> errors_, labels_, given_;
  std::size_t at_ = 0;
  Offences offences_;
};

/// Functions whose result is a text for people.
std::set<std::string> worded(const Sources& sources) {
  std::set<std::string> out{"lever_name", "constant_name", "level_text"};
  for (const auto& [path, text] : sources) {
    if (!path.starts_with("core/wording/") || !is_header(path)) continue;
    const Tokens tokens = tokens_of(text);
    for (std::size_t i = 0; i + 2 < tokens.size(); ++i)
      if (is_name(tokens[i].text) && is_name(tokens[i + 1].text) && tokens[i + 2].text == "(")
        out.insert(tokens[i + 1].text);
  }
  return out;
}

Offences prose_offences(const Sources& sources) {
  const auto names = worded(sources);
  Offences offences;
  for (const auto& [path, text] : sources) {
    const std::string twin = is_header(path) ? std::string() : path.substr(0, path.rfind('.')) + ".h";
    const auto header = sources.find(twin);
    Reader reader(path, text, header == sources.end() ? std::string() : header->second, names);
    for (auto& offence : reader.offences()) offences.push_back(std::move(offence));
  }
  return offences;
}

TEST(Prose, NoTextThatTheProgramWroteIsReadBack) {
  const Sources sources = project_sources({"core", "ui", "app"});
  EXPECT_GT(worded(sources).size(), 20U) << "hardly a sentence was found: this gate looks in the wrong place";
  const Offences offences = prose_offences(sources);
  EXPECT_TRUE(offences.empty()) << joined(offences);
}

TEST(Prose, OneThatIsReadBackIsSeen) {
  const std::string header =
      "std::string sentence(const Error& error);\nstd::string word_text(const F& f);\n"
      "FindingText finding_text(const F& f);\n";
  for (const auto* bad :
       {// errors
        "void f(const Error& error) { if (error.field == \"who\") g(); }",
        "void f(const Error& e) { g(\"journal\" != e.value); }",
        "bool f(const PlanNote& note) { return note.error.field == field; }",
        "bool f() { return done.error().allowed.starts_with(\"0\"); }",
        "void f(const Error& error) { at(QString::fromStdString(error.field).contains(x)); }",
        "void f(const Error& error) { place = plain_place(error.field); }",
        "void f(const Error& error) { const auto it = places.find(error.field); }",
        "void f() { const auto problem = done.error(); switch_on(problem.value); }",
        "void f(const Error* error) { lines << error->field; }",
        // sentences
        "bool f() { return wording::sentence(e) == x; }", "bool f() { return x == qt(wording::sentence(e)); }",
        "bool f() { return qt(wording::word_text(a(b), c)).startsWith(QLatin1String(\"Held\")); }",
        "bool f() { return wording::finding_text(a).title.contains(\"Moved\"); }",
        "void f() { const std::string said = wording::word_text(a); if (said == \"Held\") g(); }",
        "void f() { const auto said = wording::finding_text(a); if (x) { h(said.title == \"Held\"); } }",
        "void f() { const std::string said = y ? \"it: \" + wording::word_text(a) : z; g(said.substr(2)); }",
        "bool f() { return constant_name(c.kind) == field; }",
        // labels
        "QLabel* now_;\nbool f() { return now_->text().startsWith(x); }",
        "QPushButton *yes_, *no_;\nbool f() { return no_->text() != wanted; }",
        "void f() { auto* said = label(x); g(y == said->text()); }",
        "QLabel* now_;\nvoid f() { const QString before = now_->text(); if (after == before) return; }",
        "bool f() { return text(name(row)) != list_->currentText(); }",
        // literals, tables
        "bool f(const QString& words) { return words.contains(QStringLiteral(\"entered once\")); }",
        "bool f(const std::string& s) { return s == \"present way\"; }",
        "constexpr std::pair<const char*, const char*> places[] = {{\"present way\", \"level.0.now\"}};"})
    EXPECT_THAT(prose_offences({{"core/wording/x.h", header}, {"ui/x.cpp", bad}}), SizeIs(1)) << bad;
  for (const auto* bad : {"std::string f(const Error& e) { if (e.field == \"book\") return x; }",
                          "std::string f(std::string_view kept) { return g(kept.find(unit)); }",
                          "std::string f(const std::string& kept, int n) { return kept.substr(n); }"})
    EXPECT_THAT(prose_offences({{"core/wording/x.h", header}, {"core/wording/x.cpp", bad}}), SizeIs(1)) << bad;
  EXPECT_THAT(prose_offences({{"ui/x.h", "class X { QLabel* said_; };"},
                              {"ui/x.cpp", "bool X::f() { return said_->text() == y; }"}}),
              SizeIs(1));
}

TEST(Prose, FactsAndWhatPeopleTypedAreNot) {
  EXPECT_THAT(
      prose_offences(
          {{"core/wording/x.h", "std::string sentence(const Error& error);\n"},
           {"core/wording/x.cpp", "std::string f(const Error& e) { return e.field.empty() ? a : a + e.value; }"},
           {"core/store/x.cpp",
            "Error f(Error e) { e.value = shown_value(text); e.value = join(text, e.value); return e; }\n"
            "void g() { throw BadRow{{ErrorKind::damaged, what, got.error().value, {}, {}}}; }"},
           {"ui/x.cpp",
            "QLineEdit* line_;\nQLabel* said_;\n"
            "void f(const Error& error) {\n"
            "  auto* at = error.at == Field::who ? who_ : nullptr;\n"
            "  if (error.kind == ErrorKind::gone) said_->setText(qt(wording::sentence(error)));\n"
            "  if (line_->text() == standing_ || said_->text().isEmpty()) return;\n"
            "  // error.field == \"who\"\n"
            "  if (amendment.field == \"notes\" || typed.startsWith(QStringLiteral(\"0\"))) return;\n"
            "  const QString words = qt(wording::sentence(error));\n"
            "  say(words + QStringLiteral(\"or go on typing\"));\n"
            "}\n"}}),
      IsEmpty());
}

}  // namespace
}  // namespace likeleaf::gates
