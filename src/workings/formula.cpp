#include "workings/formula.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <stdexcept>
#include <utility>

#include "base/units.h"

namespace deckquire::workings {
namespace {

struct Token {
  enum class Is { number, name, function, sign, end } is = Is::end;
  std::string_view text;
};

bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}
bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

[[noreturn]] void wrong(std::string_view formula, std::string_view what) {
  throw std::logic_error(fmt::format("formula \"{}\": {}", formula, what));
}

std::size_t number_length(std::string_view s) {
  std::size_t n = 0;
  while (n < s.size() && (is_digit(s[n]) || s[n] == '.')) ++n;
  if (n == s.size() || s[n] != 'e') return n;
  std::size_t e = n + 1;
  if (e < s.size() && (s[e] == '-' || s[e] == '+')) ++e;
  if (e == s.size() || !is_digit(s[e])) return n;
  while (e < s.size() && is_digit(s[e])) ++e;
  return e;
}

std::size_t name_length(std::string_view s) {
  std::size_t n = 0;
  while (n < s.size() && (is_letter(s[n]) || is_digit(s[n]) || s[n] == '_' || s[n] == '\'')) ++n;
  return n;
}

std::vector<Token> tokens_of(std::string_view formula) {
  std::vector<Token> out;
  for (std::size_t i = 0; i < formula.size();) {
    const std::string_view rest = formula.substr(i);
    std::size_t n = 1;
    if (rest[0] == ' ') {
      ++i;
      continue;
    }
    Token::Is is = Token::Is::sign;
    if (is_digit(rest[0]) || rest[0] == '.') {
      is = Token::Is::number;
      n = number_length(rest);
    } else if (is_letter(rest[0])) {
      n = name_length(rest);
      is = n < rest.size() && rest[n] == '(' ? Token::Is::function : Token::Is::name;
    } else if (rest.starts_with("<=") || rest.starts_with(">=")) {
      n = 2;
    } else if (std::string_view("+-*/^(),<>").find(rest[0]) == std::string_view::npos) {
      wrong(formula, fmt::format("'{}' is no part of a formula", rest[0]));
    }
    out.push_back({is, rest.substr(0, n)});
    i += n;
  }
  out.push_back({Token::Is::end, {}});
  return out;
}

/// Recursive descent, one function for each rank of operators.
class Evaluation {
 public:
  Evaluation(std::string_view formula, const std::function<double(std::string_view)>& value_of)
      : formula_(formula), value_of_(value_of), tokens_(tokens_of(formula)) {}

  double all() {
    const double v = sum();
    if (now().is != Token::Is::end) wrong(formula_, fmt::format("'{}' not expected", now().text));
    return v;
  }

 private:
  const Token& now() const { return tokens_[at_]; }
  bool take(std::string_view sign) {
    if (now().is != Token::Is::sign || now().text != sign) return false;
    ++at_;
    return true;
  }
  void need(std::string_view sign) {
    if (!take(sign)) wrong(formula_, fmt::format("'{}' expected", sign));
  }

  double sum() {
    double v = product();
    for (;;) {
      if (take("+"))
        v += product();
      else if (take("-"))
        v -= product();
      else
        return v;
    }
  }

  double product() {
    double v = signed_power();
    for (;;) {
      if (take("*"))
        v *= signed_power();
      else if (take("/"))
        v /= signed_power();
      else
        return v;
    }
  }

  double signed_power() {
    if (take("-")) return -signed_power();
    const double base = atom();
    return take("^") ? std::pow(base, signed_power()) : base;
  }

  double atom() {
    const Token t = now();
    if (take("(")) {
      const double v = sum();
      need(")");
      return v;
    }
    if (t.is == Token::Is::sign || t.is == Token::Is::end) wrong(formula_, "a value is missing");
    ++at_;
    if (t.is == Token::Is::number) return number(t.text);
    if (t.is == Token::Is::function) return call(t.text);
    return t.text == "pi" ? pi : value_of_(t.text);
  }

  double number(std::string_view text) const {
    double v = 0;
    const auto end = std::from_chars(text.data(), text.data() + text.size(), v);
    if (end.ec != std::errc() || end.ptr != text.data() + text.size())
      wrong(formula_, fmt::format("'{}' is no number", text));
    return v;
  }

  double call(std::string_view name) {
    need("(");
    std::vector<double> arguments{sum()};
    while (take(",")) arguments.push_back(sum());
    need(")");
    if (name == "min" || name == "max") {
      if (arguments.size() < 2) wrong(formula_, "min and max take two values or more");
      const auto [least, most] = std::minmax_element(arguments.begin(), arguments.end());
      return name == "min" ? *least : *most;
    }
    using Function = double (*)(double);
    static constexpr std::array<std::pair<std::string_view, Function>, 10> functions{
        {{"sqrt", [](double x) { return std::sqrt(x); }},
         {"abs", [](double x) { return std::abs(x); }},
         {"acos", [](double x) { return std::acos(x); }},
         {"cos", [](double x) { return std::cos(x); }},
         {"sin", [](double x) { return std::sin(x); }},
         {"tan", [](double x) { return std::tan(x); }},
         {"exp", [](double x) { return std::exp(x); }},
         {"ln", [](double x) { return std::log(x); }},
         {"ceil", [](double x) { return std::ceil(x); }},
         {"floor", [](double x) { return std::floor(x); }}}};
    const auto* f = std::find_if(functions.begin(), functions.end(),
                                 [&](const auto& known) { return known.first == name; });
    if (f == functions.end()) wrong(formula_, fmt::format("no function '{}'", name));
    if (arguments.size() != 1) wrong(formula_, fmt::format("'{}' takes one value", name));
    return f->second(arguments[0]);
  }

  std::string_view formula_;
  const std::function<double(std::string_view)>& value_of_;
  std::vector<Token> tokens_;
  std::size_t at_ = 0;
};

constexpr std::array<std::string_view, 10> superscripts{"⁰", "¹", "²", "³", "⁴",
                                                        "⁵", "⁶", "⁷", "⁸", "⁹"};

std::string greek(std::string_view name) {
  static constexpr std::array<std::pair<std::string_view, std::string_view>, 20> letters{
      {{"alpha", "α"}, {"beta", "β"},  {"gamma", "γ"}, {"delta", "δ"},  {"Delta", "Δ"},
       {"eta", "η"},   {"theta", "θ"}, {"kappa", "κ"}, {"lambda", "λ"}, {"mu", "µ"},
       {"nu", "ν"},    {"pi", "π"},    {"rho", "ρ"},   {"sigma", "σ"},  {"Sigma", "Σ"},
       {"tau", "τ"},   {"phi", "φ"},   {"psi", "ψ"},   {"omega", "ω"},  {"epsilon", "ε"}}};
  const std::string_view stem = name.substr(0, name.find_first_of("_'0123456789"));
  for (const auto& [word, letter] : letters)
    if (stem == word) return std::string(letter) + std::string(name.substr(stem.size()));
  return std::string(name);
}

std::string typeset_number(std::string_view text) {
  const auto e = text.find('e');
  if (e == std::string_view::npos) return std::string(text);
  std::string power;
  for (char c : text.substr(e + 1)) {
    if (c == '-') power += "⁻";
    if (is_digit(c)) power += superscripts[static_cast<std::size_t>(c - '0')];
  }
  return fmt::format("({} × 10{})", text.substr(0, e), power);
}

std::string typeset_sign(std::string_view sign, bool unary) {
  if (sign == "*") return " × ";
  if (sign == "+") return " + ";
  if (sign == "-") return unary ? "−" : " − ";
  if (sign == ",") return ", ";
  if (sign == "<=") return " ≤ ";
  if (sign == ">=") return " ≥ ";
  if (sign == "<" || sign == ">") return " " + std::string(sign) + " ";
  return std::string(sign);
}

}  // namespace

double evaluate(std::string_view formula, const std::function<double(std::string_view)>& value_of) {
  return Evaluation(formula, value_of).all();
}

std::string with_numbers(std::string_view formula,
                         const std::function<std::string(std::string_view)>& text_of) {
  std::string out;
  const char* done = formula.data();
  for (const Token& t : tokens_of(formula)) {
    if (t.is != Token::Is::name || t.text == "pi") continue;
    out.append(done, t.text.data());
    const std::string number = text_of(t.text);
    out += number.starts_with('-') ? "(" + number + ")" : number;
    done = t.text.data() + t.text.size();
  }
  return out.append(done, formula.data() + formula.size());
}

std::vector<std::string> names_in(std::string_view formula) {
  std::vector<std::string> out;
  for (const Token& t : tokens_of(formula))
    if (t.is == Token::Is::name && t.text != "pi" &&
        std::find(out.begin(), out.end(), t.text) == out.end())
      out.emplace_back(t.text);
  return out;
}

std::string typeset(std::string_view formula) {
  const std::vector<Token> tokens = tokens_of(formula);
  std::string out;
  bool value_before = false;  // so that a minus is told from a sign
  for (std::size_t i = 0; i + 1 < tokens.size(); ++i) {
    const Token& t = tokens[i];
    const bool closes = t.text == ")";
    if (t.is == Token::Is::number) {
      out += typeset_number(t.text);
    } else if (t.is == Token::Is::name) {
      out += greek(t.text);
    } else if (t.is == Token::Is::function) {
      out += t.text == "sqrt" ? "√" : std::string(t.text);
    } else if (t.text == "^" && tokens[i + 1].text.size() == 1 && is_digit(tokens[i + 1].text[0]) &&
               tokens[i + 2].text != "^") {
      out += superscripts[static_cast<std::size_t>(tokens[i + 1].text[0] - '0')];
      ++i;
      value_before = true;
      continue;
    } else {
      out += typeset_sign(t.text, !value_before);
    }
    value_before = closes || t.is == Token::Is::number || t.is == Token::Is::name;
  }
  return out;
}

}  // namespace deckquire::workings
