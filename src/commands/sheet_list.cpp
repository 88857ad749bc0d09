#include "commands/sheet_list.h"

#include <algorithm>

namespace deckquire::commands {
namespace {

std::vector<std::string> parts_of(const std::string& list) {
  std::vector<std::string> parts(1);
  for (char c : list) {
    if (c == ',')
      parts.emplace_back();
    else if (c != ' ')
      parts.back() += c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
  }
  return parts;
}

/// Running number behind the series letter: 3 of "P03" or "P3"; -1 when there is none.
int running(const std::string& number) {
  if (number.size() < 2 || number.size() > 6) return -1;
  if (number.find_first_not_of("0123456789", 1) != std::string::npos) return -1;
  return std::stoi(number.substr(1));
}

bool names(const std::string& part, const std::string& number) {
  if (part.empty() || part[0] != number[0]) return false;
  if (part.size() == 1 || part == number) return true;
  // Further sheets of a mark (P03-2) go with its first.
  const int own = running(number.substr(0, number.find('-')));
  const std::size_t dash = std::min(part.find('-'), part.size());
  const int from = running(part.substr(0, dash));
  if (from < 0) return false;
  if (dash == part.size()) return own == from;
  const std::string last = part.substr(dash + 1);
  return !last.empty() && last[0] == part[0] && from <= own && own <= running(last);
}

}  // namespace

SheetChoice choose_sheets(const std::string& list, const std::vector<std::string>& numbers) {
  SheetChoice choice;
  choice.wanted.assign(numbers.size(), list.empty());
  if (list.empty()) return choice;
  for (const std::string& part : parts_of(list)) {
    bool found = false;
    for (std::size_t i = 0; i < numbers.size(); ++i) {
      if (!names(part, numbers[i])) continue;
      choice.wanted[i] = true;
      found = true;
    }
    if (!found) choice.strange.push_back(part);
  }
  return choice;
}

}  // namespace deckquire::commands
