// Formulas as text: the value against C++ written by hand and against random trees, precedence,
// the numbers put in, and print.
#include "workings/formula.h"

#include <array>
#include <cmath>
#include <map>
#include <memory>
#include <stdexcept>

#include <doctest/doctest.h>
#include <fmt/format.h>

#include "support/dice.h"

using namespace deckquire::workings;
using deckquire::testing::Dice;

namespace {

using Table = std::map<std::string, double, std::less<>>;

double value(std::string_view formula, const Table& t = {}) {
  return evaluate(formula, [&](std::string_view name) {
    const auto found = t.find(name);
    if (found == t.end()) throw std::logic_error("unknown " + std::string(name));
    return found->second;
  });
}

bool same(double a, double b) {
  return (std::isnan(a) && std::isnan(b)) || a == b ||
         std::abs(a - b) <= 1e-13 * std::max(std::abs(a), std::abs(b));
}

/// A tree of operations: its value by itself, and its text with as few parentheses as the rules of
/// precedence allow.
struct Tree {
  char op = 'v';  // + - * / ^ n (minus sign) v (a named value)
  std::string name;
  double leaf = 0;
  std::unique_ptr<Tree> a, b;

  double value() const {
    switch (op) {
      case '+':
        return a->value() + b->value();
      case '-':
        return a->value() - b->value();
      case '*':
        return a->value() * b->value();
      case '/':
        return a->value() / b->value();
      case '^':
        return std::pow(a->value(), b->value());
      case 'n':
        return -a->value();
      default:
        return leaf;
    }
  }
  int rank() const {
    switch (op) {
      case '+':
      case '-':
        return 1;
      case '*':
      case '/':
        return 2;
      case 'n':
        return 3;
      case '^':
        return 4;
      default:
        return 5;
    }
  }
  static std::string within(const Tree& t, int least) {
    return t.rank() < least ? "(" + t.text() + ")" : t.text();
  }
  std::string text() const {
    switch (op) {
      case '+':
        return within(*a, 1) + " + " + within(*b, 2);
      case '-':
        return within(*a, 1) + "-" + within(*b, 2);
      case '*':
        return within(*a, 2) + "*" + within(*b, 3);
      case '/':
        return within(*a, 2) + "/" + within(*b, 3);
      case '^':
        return within(*a, 5) + "^" + within(*b, 3);
      case 'n':
        return "-" + within(*a, 3);
      default:
        return name;
    }
  }
};

std::unique_ptr<Tree> random_tree(Dice& dice, int depth, Table& values) {
  auto t = std::make_unique<Tree>();
  if (depth == 0 || dice.upto(5) == 0) {
    t->name = fmt::format("x_{}'", values.size());
    t->leaf = dice.next() * 4 - 1;
    values[t->name] = t->leaf;
    return t;
  }
  t->op = "+-*/^n"[dice.upto(6)];
  t->a = random_tree(dice, depth - 1, values);
  if (t->op != 'n') t->b = random_tree(dice, depth - 1, values);
  return t;
}

}  // namespace

TEST_CASE("formula: precedence as in print, powers from the right, a minus before a power last") {
  CHECK(value("1 + 2*3") == 7);
  CHECK(value("(1 + 2)*3") == 9);
  CHECK(value("8/4/2") == 1);
  CHECK(value("8/4*2") == 4);
  CHECK(value("7-4-2") == 1);
  CHECK(value("2^3^2") == 512);
  CHECK(value("(2^3)^2") == 64);
  CHECK(value("-2^2") == -4);
  CHECK(value("(-2)^2") == 4);
  CHECK(value("2^-1") == 0.5);
  CHECK(value("3--2") == 5);
  CHECK(value("2*-3") == -6);
  CHECK(value("2^(1/2)") == std::pow(2, 0.5));
  CHECK(value("1.5e-3*2") == 0.003);
  CHECK(value("2e3 + .5") == 2000.5);
}

TEST_CASE("formula: functions and names") {
  CHECK(value("max(1, 3, 2) - min(4, 2)") == 1);
  CHECK(value("sqrt(16) + abs(-3) + ceil(1.2) + floor(1.8)") == 10);
  CHECK(value("exp(ln(5))") == doctest::Approx(5).epsilon(1e-14));
  CHECK(value("sin(pi/6) + cos(pi/3) + tan(pi/4) + acos(1)") == doctest::Approx(2).epsilon(1e-14));
  CHECK(value("E'o + e_1*max", {{"E'o", 2}, {"e_1", 3}, {"max", 5}}) == 17);
  CHECK(names_in("a*b + max(a, c')/pi") == std::vector<std::string>{"a", "b", "c'"});
}

TEST_CASE("formula: what is no formula is a mistake of the program, and is said to be one") {
  for (const char* bad : {"", "1 +", "(1", "1)", "2 3", "a b", "foo(1)", "min(1)", "sqrt(1, 2)",
                          "1..2", "2 $ 3", "1 <= 2", "sqrt()", "*2", "1,2", "2^"})
    CHECK_THROWS_AS(value(bad, {{"a", 1}, {"b", 1}}), std::logic_error);
  CHECK_THROWS_AS(value("nobody"), std::logic_error);
}

TEST_CASE("formula: the values of hand-written C++ over values by chance") {
  Dice dice{7};
  for (int i = 0; i < 2000; ++i) {
    const double n = 0.009 + dice.next() * 0.02, Sx = 0.005 + dice.next() * 0.08;
    const double SL = 0.001 + dice.next() * 0.1, T = 0.05 + dice.next() * 3;
    const double L = 0.1 + dice.next(), y = dice.next();
    const Table t{{"n", n}, {"Sx", Sx}, {"SL", SL}, {"T", T}, {"L", L}, {"y", y}, {"Kg", 0.376}};
    CHECK(same(value("Kg/n*Sx^(5/3)*SL^(1/2)*T^(8/3)", t),
               0.376 / n * std::pow(Sx, 5.0 / 3) * std::pow(SL, 0.5) * std::pow(T, 8.0 / 3)));
    CHECK(same(value("2.22 + 4.03*L - 0.65*L^2 + 0.06*L^3", t),
               2.22 + 4.03 * L - 0.65 * L * L + 0.06 * L * L * L));
    CHECK(same(value("2*acos(1 - 2*y)", t), 2 * std::acos(1 - 2 * y)));
    CHECK(same(value("1/(1 + (T/n)/((1 + (T/n)/(L + 1))^(8/3) - 1))", t),
               1 / (1 + (T / n) / (std::pow(1 + (T / n) / (L + 1), 8.0 / 3) - 1))));
    CHECK(same(value("max(0, min(1, 1 - 0.295*(T - L)))", t),
               std::max(0.0, std::min(1.0, 1 - 0.295 * (T - L)))));
  }
}

TEST_CASE("formula: trees by chance, written with as few parentheses as may be") {
  Dice dice{20};
  int compared = 0;
  for (int i = 0; i < 3000; ++i) {
    Table values;
    const auto tree = random_tree(dice, 5, values);
    INFO(tree->text());
    CHECK(same(value(tree->text(), values), tree->value()));
    compared += std::isfinite(tree->value());
  }
  CHECK(compared > 1500);  // the rest are roots of negative numbers
}

TEST_CASE("formula: the line of numbers is a formula of the same value") {
  Dice dice{3};
  for (int i = 0; i < 1000; ++i) {
    Table values;
    const auto tree = random_tree(dice, 4, values);
    const std::string numbers = with_numbers(tree->text(), [&](std::string_view name) {
      return fmt::format("{:.17g}", values.find(name)->second);
    });
    INFO(numbers);
    CHECK(numbers.find('x') == std::string::npos);
    CHECK(same(value(numbers), tree->value()));
  }
  const auto text_of = [](std::string_view name) {
    return std::string(name == "a" ? "-2" : "6.750e-5");
  };
  CHECK(with_numbers("a^2 + max(q, a)*pi", text_of) == "(-2)^2 + max(6.750e-5, (-2))*pi");
  CHECK(with_numbers("q", text_of) == "6.750e-5");
}

TEST_CASE("formula: print") {
  CHECK(typeset("(Q*n/(Kg*Sx^(5/3)*SL^(1/2)))^(3/8)") ==
        "(Q × n/(Kg × Sx^(5/3) × SL^(1/2)))^(3/8)");
  CHECK(typeset("D^2*(theta-sin(theta))/8") == "D² × (θ − sin(θ))/8");
  CHECK(typeset("-a^2+sqrt(2*g)^3") == "−a² + √(2 × g)³");
  CHECK(typeset("2^3^2") == "2^3²");
  CHECK(typeset("a^10") == "a^10");
  CHECK(typeset("a*-b") == "a × −b");
  CHECK(typeset("6.750e-5*x") == "(6.750 × 10⁻⁵) × x");
  CHECK(typeset("T<=w") == "T ≤ w");
  CHECK(typeset("max(alpha_1,Delta')") == "max(α_1, Δ')");
  CHECK(typeset("alphabet*pi") == "alphabet × π");
}
