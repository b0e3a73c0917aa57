#include "places.h"

#include <algorithm>
#include <cctype>
#include <map>
#include <random>
#include <utility>

#include "../../gates/sources.h"

namespace likeleaf::planted {
namespace {

using Turns = std::map<std::string_view, std::string_view>;

const Turns operators{{"<", "<="},  {"<=", "<"},  {">", ">="},  {">=", ">"}, {"==", "!="}, {"!=", "=="},
                      {"&&", "||"}, {"||", "&&"}, {"+", "-"},   {"-", "+"},  {"*", "/"},   {"/", "*"},
                      {"%", "/"},   {"+=", "-="}, {"-=", "+="}, {"*=", "/="}};
const Turns words{{"true", "false"},    {"false", "true"},     {"min", "max"}, {"max", "min"},  {"any_of", "all_of"},
                  {"all_of", "any_of"}, {"none_of", "any_of"}, {"break", ""},  {"continue", ""}};

struct Token {
  std::size_t at = 0;
  std::string_view text;
};

bool is_space(char c) {
  return std::isspace(static_cast<unsigned char>(c)) != 0;
}
bool is_digit(char c) {
  return std::isdigit(static_cast<unsigned char>(c)) != 0;
}
bool is_word(char c) {
  return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_';
}

std::size_t word_length(std::string_view text) {
  const bool number = is_digit(text[0]);
  std::size_t n = 1;
  while (n < text.size() &&
         (is_word(text[n]) || (number && (text[n] == '.' || text[n] == '\'' ||
                                          ((text[n] == '-' || text[n] == '+') && text[n - 1] == 'e')))))
    ++n;
  return n;
}

std::size_t operator_length(std::string_view text) {
  for (const std::string_view op : {"<=>", "<<=", ">>=", "...", "->", "::", "<<", ">>", "<=", ">=", "==", "!=",
                                    "&&",  "||",  "+=",  "-=",  "*=", "/=", "%=", "|=", "&=", "^=", "++", "--"})
    if (text.starts_with(op)) return op.size();
  return 1;
}

std::vector<Token> tokens_of(std::string_view code) {
  std::vector<Token> out;
  bool directive = false;
  for (std::size_t at = 0; at < code.size();) {
    const std::string_view rest = code.substr(at);
    if (rest[0] == '\n') directive = directive && at > 0 && code[at - 1] == '\\';
    if (rest[0] == '#') directive = true;
    std::size_t length = 1;
    if (!is_space(rest[0]) && !directive) {
      length = is_word(rest[0]) ? word_length(rest) : operator_length(rest);
      out.push_back({at, rest.substr(0, length)});
    }
    at += length;
  }
  return out;
}

class Finder {
 public:
  Finder(std::string path, std::string_view text)
      : path_(std::move(path)),
        text_(text),
        code_(gates::code_of(text, gates::Literals::blank)),
        kept_(gates::code_of(text, gates::Literals::keep)),
        tokens_(tokens_of(code_)) {}

  std::vector<Place> find() {
    for (std::size_t i = 0; i < tokens_.size(); ++i) {
      const auto word = tokens_[i].text;
      if (word == "static_assert")
        i = closing(i + 1);
      else if (word == "template")
        i = end_of_template_head(i + 1);
      else if (word == "if" && text(i + 1) == "(")
        add_if(i + 1);
      else if (word == "?")
        add_conditional(i);
      else if (word == "return" && i > 0 && text(i - 1) == ")")
        add_return(i);
      else if (word == "!")
        add(tokens_[i].at, 1, "");
      else if (is_binary(i))
        add(tokens_[i].at, word.size(), operators.at(word));
      else if (is_digit(word[0]) && (is_binary(i + 1) || (i > 0 && is_binary(i - 1))))
        add(tokens_[i].at, word.size(), "(" + std::string(word) + " + 1)");
      else if (words.contains(word) && (word.substr(0, 1) != "m" || (i > 0 && text(i - 1) == "::")))
        add(tokens_[i].at, word.size(), words.at(word));
    }
    return std::move(places_);
  }

 private:
  std::string_view text(std::size_t i) const { return i < tokens_.size() ? tokens_[i].text : std::string_view(); }
  std::size_t end(std::size_t i) const { return tokens_[i].at + tokens_[i].text.size(); }

  void add(std::size_t at, std::size_t length, std::string_view turned) {
    const auto line =
        static_cast<int>(std::count(text_.begin(), text_.begin() + static_cast<std::ptrdiff_t>(at), '\n'));
    places_.push_back({path_, line + 1, at, std::string(text_.substr(at, length)), std::string(turned)});
  }

  /// White space around, and no text beside: + joins texts, and - of them does not compile.
  bool is_binary(std::size_t i) const {
    if (i >= tokens_.size() || !operators.contains(tokens_[i].text)) return false;
    const std::size_t at = tokens_[i].at, after = end(i);
    if (at == 0 || after >= code_.size() || !is_space(code_[at - 1]) || !is_space(code_[after])) return false;
    const auto before = kept_.find_last_not_of(" \n\t", at - 1), next = kept_.find_first_not_of(" \n\t", after);
    return before != std::string::npos && next != std::string::npos && kept_[before] != '"' && kept_[next] != '"';
  }

  static int step(std::string_view word) {
    if (word == "(" || word == "[" || word == "{") return 1;
    return word == ")" || word == "]" || word == "}" ? -1 : 0;
  }

  /// The token that closes the bracket at `open`.
  std::size_t closing(std::size_t open) const {
    int depth = 0;
    for (std::size_t i = open; i < tokens_.size(); ++i)
      if ((depth += step(tokens_[i].text)) == 0) return i;
    return tokens_.size();
  }

  std::size_t end_of_template_head(std::size_t open) const {
    int depth = 0;
    for (std::size_t i = open; i < tokens_.size(); ++i) {
      if (tokens_[i].text == "<") ++depth;
      if (tokens_[i].text == ">") --depth;
      if (tokens_[i].text == ">>") depth -= 2;
      if (depth <= 0) return i;
    }
    return tokens_.size();
  }

  /// "if (x)" to "if (!(x))"; "if (auto x = f())" to "if (auto x = f(); !x)".
  void add_if(std::size_t open) {
    const std::size_t close = closing(open);
    if (close >= tokens_.size()) return;
    std::size_t begin = open + 1;
    std::size_t assigned = 0;  // no condition begins with one
    int depth = 0;
    for (std::size_t i = begin; i < close; ++i) {
      depth += step(tokens_[i].text);
      if (depth == 0 && tokens_[i].text == ";") begin = i + 1, assigned = 0;
      if (depth == 0 && tokens_[i].text == "=" && assigned == 0) assigned = i;
    }
    const std::size_t from = tokens_[begin].at;
    const std::string condition(text_.substr(from, tokens_[close].at - from));
    add(from, condition.size(),
        assigned > 0 ? condition + "; !" + std::string(text(assigned - 1)) : "!(" + condition + ")");
  }

  /// "x ? a : b" to "!(x) ? a : b".
  void add_conditional(std::size_t question) {
    std::size_t begin = question;
    int depth = 0;
    while (begin > 0) {
      const auto word = tokens_[begin - 1].text;
      depth -= step(word);
      if (depth < 0) break;
      static const std::vector<std::string_view> stops{",", ";", "?", ":", "=", "+=", "-=", "return", "}"};
      if (depth == 0 && std::find(stops.begin(), stops.end(), word) != stops.end()) break;
      --begin;
    }
    if (begin == question) return;
    const std::size_t from = tokens_[begin].at;
    const std::string condition(text_.substr(from, end(question - 1) - from));
    add(from, condition.size(), "!(" + condition + ")");
  }

  void add_return(std::size_t i) {
    int depth = 0;
    for (std::size_t j = i; j < tokens_.size(); ++j) {
      depth += step(tokens_[j].text);
      if (depth == 0 && tokens_[j].text == ";") return add(tokens_[i].at, tokens_[j].at - tokens_[i].at, "");
    }
  }

  std::string path_;
  std::string_view text_;
  std::string code_, kept_;
  std::vector<Token> tokens_;
  std::vector<Place> places_;
};

}  // namespace

std::vector<Place> places_of(const std::string& path, std::string_view text) {
  return Finder(path, text).find();
}

std::vector<Place> drawn(std::vector<Place> places, std::uint64_t seed) {
  std::mt19937_64 random(seed);
  for (std::size_t left = places.size(); left > 1; --left)
    std::swap(places[left - 1], places[static_cast<std::size_t>(random() % left)]);
  return places;
}

}  // namespace likeleaf::planted
