// Numbers of features, the places they are dimensioned by, and the cuts that show them.
#include <algorithm>
#include <cmath>

#include "sheets/panel_parts.h"

namespace deckquire::sheets {
namespace {

constexpr double equal = 0.5;  // mm: sizes that print alike

bool same_item(const Feature& a, const Feature& b) {
  if (a.kind != b.kind) return false;
  const bool by_variant = a.kind == FeatureKind::hatch || a.kind == FeatureKind::sleeve;
  return std::abs(a.length - b.length) < equal && std::abs(a.width - b.width) < equal &&
         std::abs(a.depth - b.depth) < equal && (!by_variant || a.variant == b.variant);
}

/// Numbers run from what is seen first on the top to the soffit.
int rank(FeatureKind kind) {
  switch (kind) {
    case FeatureKind::post_plate:
      return 0;
    case FeatureKind::scupper:
      return 1;
    case FeatureKind::hatch:
      return 2;
    case FeatureKind::sleeve:
      return 3;
    case FeatureKind::notch:
      return 4;
    case FeatureKind::lifting_insert:
      return 5;
    case FeatureKind::recess:
      return 6;
    case FeatureKind::hold_down:
      return 7;
    case FeatureKind::pad:
      return 8;
    case FeatureKind::tag:
      return 9;
  }
  return 10;
}

/// Cuts have letters in their order; -1: a view without.
int letter_index(PanelView v) {
  return v < PanelView::section ? -1 : static_cast<int>(v) - static_cast<int>(PanelView::section);
}

/// How far in x a feature keeps a cut away: its half length, less what may be cut quietly.
double keep_off(const Feature& f) {
  if (f.kind == FeatureKind::pad || f.kind == FeatureKind::tag) return 0;
  const Box<PanelFrame> b = f.box();
  return b.width() / 2;
}

const Feature* first_of(const PanelShape& shape, FeatureKind kind, int& index) {
  for (std::size_t i = 0; i < shape.features.size(); ++i)
    if (shape.features[i].kind == kind) {
      index = static_cast<int>(i);
      return &shape.features[i];
    }
  return nullptr;
}

}  // namespace

std::vector<PanelItem> number_items(const PanelShape& shape) {
  std::vector<PanelItem> items;
  for (std::size_t i = 0; i < shape.features.size(); ++i) {
    const Feature& f = shape.features[i];
    const auto at = std::find_if(items.begin(), items.end(), [&](const PanelItem& item) {
      return same_item(shape.features[item.features.front()], f);
    });
    if (at == items.end())
      items.push_back({0, {i}});
    else
      at->features.push_back(i);
  }
  std::stable_sort(items.begin(), items.end(), [&](const PanelItem& a, const PanelItem& b) {
    return rank(shape.features[a.features[0]].kind) < rank(shape.features[b.features[0]].kind);
  });
  for (std::size_t i = 0; i < items.size(); ++i) items[i].number = static_cast<int>(i) + 1;
  return items;
}

std::vector<PanelJob> panel_jobs(const SetInput& input, const SetPlan& plan, const SheetPlan& own) {
  std::vector<PanelJob> out;
  int letters = 0;
  for (int m : own.marks) {
    const Mark& mark = input.deck.marks[static_cast<std::size_t>(m)];
    out.push_back({input,
                   plan,
                   own,
                   mark,
                   input.project.deck,
                   number_items(mark.shape),
                   {},
                   static_cast<int>(out.size()),
                   letters});
    int last = 0;
    for (PanelView v : {PanelView::section, PanelView::curb, PanelView::scupper, PanelView::recess})
      if (has_view(out.back(), v)) last = letter_index(v);
    letters += last + 1;
  }
  return out;
}

Stretch PanelJob::shown() const {
  const Box<PanelFrame> box = bounds(shape().outline);
  if (!own.part) return {box.low.x, box.high.x};
  return own.part->ahead ? Stretch{own.part->at, box.high.x} : Stretch{box.low.x, own.part->at};
}

bool PanelJob::shows(const Feature& f) const {
  if (!own.part) return true;
  const Box<PanelFrame> b = f.box();
  if (f.kind == FeatureKind::pad) return b.high.x > shown().first && b.low.x < shown().second;
  return shows(f.at.x);
}

int PanelJob::number_of(std::size_t feature) const {
  for (const PanelItem& item : items)
    if (std::find(item.features.begin(), item.features.end(), feature) != item.features.end())
      return item.number;
  return 0;
}

std::string PanelJob::reference(Detail d) const {
  const DetailRef* ref = plan.find(d);
  return ref ? ref->letter + "/" + ref->sheet : "";
}

std::optional<Detail> detail_of(FeatureKind kind) {
  switch (kind) {
    case FeatureKind::recess:
      return Detail::recess;
    case FeatureKind::post_plate:
      return Detail::post_plate;
    case FeatureKind::scupper:
      return Detail::scupper;
    case FeatureKind::hatch:
      return Detail::hatch;
    case FeatureKind::sleeve:
      return Detail::sleeve;
    case FeatureKind::hold_down:
      return Detail::hold_down;
    case FeatureKind::lifting_insert:
      return Detail::lifting;
    default:
      return std::nullopt;
  }
}

bool plan_shows(const Feature& f, bool from_above) {
  switch (f.kind) {
    case FeatureKind::post_plate:
    case FeatureKind::lifting_insert:
      return from_above;
    case FeatureKind::recess:
    case FeatureKind::hold_down:
    case FeatureKind::pad:
    case FeatureKind::tag:
      return !from_above;
    default:
      return true;
  }
}

bool goes_through(FeatureKind kind) {
  return kind == FeatureKind::scupper || kind == FeatureKind::sleeve ||
         kind == FeatureKind::hatch || kind == FeatureKind::notch;
}

std::vector<double> feature_places(const PanelJob& job, bool from_above, bool along_x,
                                   std::optional<bool> lower_half) {
  const PanelShape& s = job.shape();
  const Box<PanelFrame> box = bounds(s.outline);
  std::vector<double> out, elsewhere;
  for (const Feature& f : s.features) {
    if (!plan_shows(f, from_above)) continue;
    if (f.kind == FeatureKind::pad && along_x) continue;
    if (!from_above && goes_through(f.kind)) continue;  // dimensioned on the plan from above
    if (lower_half && along_x && *lower_half != (f.at.y < box.centre().y)) continue;
    if (job.shows(f)) out.push_back(along_x ? f.at.x : f.at.y);
    const bool on_first = f.kind == FeatureKind::pad || !job.shows(f);
    if (job.ahead_part() && on_first) elsewhere.push_back(f.at.y);
  }
  std::sort(out.begin(), out.end());
  const auto same = [](double a, double b) { return std::abs(a - b) < equal; };
  out.erase(std::unique(out.begin(), out.end(), same), out.end());
  // A row across that the first part's sheet dimensions already.
  if (job.ahead_part() && !along_x)
    std::erase_if(out, [&](double y) {
      return std::any_of(elsewhere.begin(), elsewhere.end(),
                         [&](double other) { return same(y, other); });
    });
  return out;
}

namespace {

/// The x between which a square cut meets no end face, as far as there are such.
std::pair<double, double> clear_of_faces(const PanelShape& shape) {
  const Corners c = corners_of(shape);
  return {std::max(c.back_right.x, c.back_left.x), std::min(c.ahead_right.x, c.ahead_left.x)};
}

}  // namespace

double typical_cut(const PanelShape& shape) {
  struct Reach {
    double at, half;
  };
  std::vector<Reach> features;
  for (const Feature& f : shape.features)
    if (const double half = keep_off(f); half > 0) features.push_back({f.at.x, half});
  std::vector<Box<PanelFrame>> openings;
  for (const auto& ring : shape.openings) openings.push_back(bounds(ring));
  const auto [from, to] = clear_of_faces(shape);
  const double middle = shape.square() ? shape.length / 2 : (from + to) / 2;
  double best = middle, best_clear = -1;
  for (int i = 0; i <= 60; ++i) {  // from the middle outwards
    const double x = middle + shape.length * (i % 2 ? -1 : 1) * ((i + 1) / 2) * 0.0125;
    if (!shape.square() && from < to && (x < from || x > to)) continue;
    double clear = 1e9;
    for (const Reach& f : features) clear = std::min(clear, std::abs(x - f.at) - f.half);
    for (const auto& b : openings) clear = std::min(clear, std::max(b.low.x - x, x - b.high.x));
    clear = std::min(clear, shape.length / 16);  // enough is enough
    if (clear > best_clear + 1) best = x, best_clear = clear;
  }
  return best;
}

SectionWindow section_window(const PanelJob& job, PanelView v) {
  const PanelShape& s = job.shape();
  SectionWindow w;
  w.x = typical_cut(s);
  const std::vector<CurbCut> curbs = curbs_at(s, job.deck, w.x);
  if (v == PanelView::curb) {
    const auto spans = across(s.outline, w.x);
    if (spans.empty() || curbs.empty()) return w;
    const CurbCut& c = curbs.front();
    const double width = std::abs(c.outer - c.inner), more = width * 1.1;
    if (c.side == Side::left)
      w.low = c.inner - more, w.high = c.outer;
    else
      w.low = c.outer, w.high = c.inner + more;
    w.feature = 0;
    return w;
  }
  const FeatureKind kind = v == PanelView::scupper ? FeatureKind::scupper : FeatureKind::recess;
  const Feature* f = first_of(s, kind, w.feature);
  if (!f) return w;
  const double around = v == PanelView::scupper ? f->width * 0.45 : f->width * 0.25 + 30;
  w.x = f->at.x;
  const auto spans = across(s.outline, w.x);
  w.low = f->at.y - f->width / 2 - around;
  w.high = f->at.y + f->width / 2 + around;
  if (v == PanelView::scupper) {  // with its curb
    for (const CurbCut& c : curbs_at(s, job.deck, w.x)) {
      if (static_cast<Side>(f->variant) != c.side) continue;
      w.low = std::min(w.low, c.outer), w.high = std::max(w.high, c.outer);
    }
  }
  if (!spans.empty()) {
    w.low = std::max(w.low, spans.front().first);
    w.high = std::min(w.high, spans.back().second);
  }
  return w;
}

std::string section_letter(const PanelJob& job, PanelView v) {
  const int index = letter_index(v);
  return index < 0 ? "" : view_letter(static_cast<std::size_t>(job.letters_taken + index));
}

std::string title_of(const PanelJob& job, PanelView v) {
  const PanelShape& s = job.shape();
  const std::string letter = section_letter(job, v), cut = "SECTION " + letter + "-" + letter;
  const std::string broken = job.own.part         ? ", " + part_words(job)
                             : job.breaks.empty() ? ""
                                                  : ", BROKEN";
  switch (v) {
    case PanelView::top:
      return "PLAN FROM ABOVE" + broken;
    case PanelView::soffit:
      return "SOFFIT, SEEN THROUGH FROM ABOVE" + broken;
    case PanelView::side:
      return (s.square() ? "ELEVATION FROM THE RIGHT" : "FROM THE RIGHT, SQUARE TO CHORD") + broken;
    case PanelView::end:
      return s.square() ? "BACK END, LOOKING AHEAD" : "BACK END, SQUARE TO ITS FACE";
    case PanelView::section:
      return cut + (s.square() ? ", LOOKING AHEAD" : ", SQUARE TO CHORD");
    case PanelView::curb:
      return "DETAIL " + letter + ", CURB";
    case PanelView::scupper:
      return cut + ", SCUPPER";
    case PanelView::recess:
      return cut + ", RECESS";
  }
  return "";
}

}  // namespace deckquire::sheets
