// Breaking running text into lines.
#include <algorithm>
#include <utility>

#include "paper/board.h"
#include "paper/utf8.h"

namespace deckquire::paper {

namespace {

/// Fills lines word by word.
class Breaker {
 public:
  Breaker(const Board& board, LetterUse use, double width)
      : board_(board), use_(use), width_(width) {}

  void word(std::string_view w) {
    if (w.empty()) return;
    const std::string longer = line_.empty() ? std::string(w) : line_ + " " + std::string(w);
    if (fits(longer)) {
      line_ = longer;
      return;
    }
    if (!line_.empty()) end_line();
    if (fits(w))
      line_ = w;
    else
      split(w);
  }
  void end_line() {
    lines_.push_back(line_);
    line_.clear();
  }
  std::vector<std::string> lines() {
    if (!line_.empty()) end_line();
    return std::move(lines_);
  }

 private:
  bool fits(std::string_view s) const { return board_.text_width(use_, s) <= width_; }

  /// A word wider than a whole line is cut between characters, at least one a line.
  void split(std::string_view w) {
    for (std::size_t at = 0; at < w.size();) {
      const std::size_t start = at;
      next_code_point(w, at);
      const std::string longer = line_ + std::string(w.substr(start, at - start));
      if (!line_.empty() && !fits(longer)) {
        end_line();
        at = start;
      } else {
        line_ = longer;
      }
    }
  }

  const Board& board_;
  LetterUse use_;
  double width_;
  std::string line_;
  std::vector<std::string> lines_;
};

}  // namespace

std::vector<std::string> Board::broken(LetterUse use, double width, std::string_view text) const {
  Breaker breaker(*this, use, width);
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find_first_of(" \t\r\n", at), text.size());
    breaker.word(text.substr(at, end - at));
    if (end < text.size() && text[end] == '\n') breaker.end_line();
    at = end + 1;
  }
  return breaker.lines();
}

}  // namespace deckquire::paper
