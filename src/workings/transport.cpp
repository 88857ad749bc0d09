// Trucks: what fits, and what their axles carry. In feet and pounds, as the limits are written.
#include <algorithm>

#include "workings/cautions.h"
#include "workings/groups.h"
#include "workings/inputs.h"

namespace deckquire::workings {

namespace {

void truck_count(Reckoner& r) {
  r.step("n_h", "panels in one stack", "floor((h_max - h_d)/t + 1e-9)", Kind::count, "");
  r.step("n_s", "stacks along the trailer", "floor((L_d + s)/(l + s) + 1e-9)", Kind::count, "");
  r.step("n_v", "panels by room", "n_h*n_s", Kind::count, "");
  r.step("k_t", "share of the payload on the trailer's axles", "x/k", Kind::number, "");
  r.step("k_d", "share on the drive axles", "(1 - k_t)*(1 - f/w)", Kind::number, "");
  r.step("k_s", "share on the steering axle", "(1 - k_t)*f/w", Kind::number, "");
  r.step("n_g", "panels by gross weight", "floor((G_max - A_s - A_d - A_t)/m + 1e-9)", Kind::count,
         "");
  r.step("n_d", "panels by the drive axles", "floor((D_max - A_d)/(m*k_d) + 1e-9)", Kind::count,
         "");
  r.step("n_t", "panels by the trailer's axles", "floor((T_max - A_t)/(m*k_t) + 1e-9)", Kind::count,
         "");
  if (r.given("f") && r.value("f") > 0) {
    r.step("n_f", "panels by the steering axle", "floor((S_max - A_s)/(m*k_s) + 1e-9)", Kind::count,
           "");
    r.step("n_most", "most panels", "max(0, min(n_v, n_g, n_d, n_t, n_f))", Kind::count, "");
  } else {
    r.step("n_most", "most panels", "max(0, min(n_v, n_g, n_d, n_t))", Kind::count, "");
  }
}

void truck_axles(Reckoner& r) {
  r.condition("x < k", "the payload's middle lies between kingpin and trailer axles",
              "load it elsewhere");
  r.condition("f < w", "the fifth wheel lies between the tractor's axles", "check f and w");
  truck_count(r);
  if (r.given("n_p")) {
    r.step("n", "panels loaded", "n_p", Kind::count, "");
    r.condition("n <= n_most", "not more panels than fit and may be carried", "load fewer");
  } else {
    r.step("n", "panels loaded", "n_most", Kind::count, "");
  }
  r.step("P", "payload", "n*m", Kind::mass, "lb");
  r.step("W_s", "steering axle", "A_s + k_s*P", Kind::mass, "lb");
  r.step("W_d", "drive axles", "A_d + k_d*P", Kind::mass, "lb");
  r.step("W_t", "trailer's axles", "A_t + k_t*P", Kind::mass, "lb");
  r.step("G", "gross weight", "W_s + W_d + W_t", Kind::mass, "lb");
  for (const char* s :
       {"n_h", "n_s", "n_v", "n_g", "n_d", "n_t", "n_most", "P", "W_s", "W_d", "W_t", "G"}) {
    r.result(s);
  }
  r.verdict("steering axle", "W_s", "S_max");
  r.verdict("drive axles", "W_d", "D_max");
  r.verdict("trailer's axles", "W_t", "T_max");
  r.verdict("gross weight", "G", "G_max");
  r.not_checked("groups of axles by the bridge formula: see bridge-formula");
  r.not_checked("dunnage and securing of the load: weigh them in with m or the tare");
  r.caution("Bearers above one another under the webs; posts and curbs carry nothing.");
  r.caution(cautions::road);
}

WorkingKind truck_axles_kind() {
  WorkingKind k;
  k.name = "truck-axles";
  k.title = "Panels on a tractor with semitrailer";
  k.about =
      "How many equal panels fit on a trailer in stacks and may be carried, and what the axles "
      "weigh then.";
  k.group = "trucks";
  k.sources = {"Statics of tractor and semitrailer (derived)",
               "US Interstate limits: 23 CFR 658.17 with the questions and answers of FHWA; other "
               "roads, states "
               "and countries have their own",
               "Height: no US federal limit; states 13 ft 6 in to 14 ft 6 in (second-hand)"};
  const char* found = "23 CFR 658.17, Interstate";
  k.inputs = {
      InputSpec{"m", "mass of one panel with its dunnage", Kind::mass, "lb"}.range(above_zero),
      InputSpec{"l", "length of one panel along the trailer", Kind::length, "ft"}.range(above_zero),
      InputSpec{"t", "height that one panel adds to a stack", Kind::length, "ft"}.range(above_zero),
      InputSpec{"h_d", "height of the trailer's deck", Kind::length, "ft"}.range(0),
      InputSpec{"h_max", "largest height with load", Kind::length, "ft"}
          .range(above_zero)
          .standard("13.5 ft", "states 13 ft 6 in to 14 ft 6 in (second-hand)"),
      InputSpec{"L_d", "length of the trailer's deck", Kind::length, "ft"}.range(above_zero),
      InputSpec{"s", "distance of stacks", Kind::length, "ft"}.range(0).standard("0.1 m",
                                                                                 "no source"),
      InputSpec{"A_s", "steering axle, empty", Kind::mass, "lb"}.range(0),
      InputSpec{"A_d", "drive axles, empty", Kind::mass, "lb"}.range(0),
      InputSpec{"A_t", "trailer's axles, empty", Kind::mass, "lb"}.range(0),
      InputSpec{"w", "steering axle to the middle of the drive axles", Kind::length, "ft"}.range(
          above_zero),
      InputSpec{"f", "fifth wheel ahead of the middle of the drive axles", Kind::length, "ft"}
          .range(0),
      InputSpec{"k", "kingpin to the middle of the trailer's axles", Kind::length, "ft"}.range(
          above_zero),
      InputSpec{"x", "kingpin to the payload's centre of gravity", Kind::length, "ft"}.range(
          above_zero),
      InputSpec{"n_p", "panels loaded, in place of the most", Kind::count, ""}.range(0).if_known(),
      InputSpec{"S_max", "limit of the steering axle", Kind::mass, "lb"}
          .range(above_zero)
          .standard("20000", found),
      InputSpec{"D_max", "limit of the drive axles (tandem)", Kind::mass, "lb"}
          .range(above_zero)
          .standard("34000", found),
      InputSpec{"T_max", "limit of the trailer's axles (tandem)", Kind::mass, "lb"}
          .range(above_zero)
          .standard("34000", found),
      InputSpec{"G_max", "limit of the gross weight", Kind::mass, "lb"}
          .range(above_zero)
          .standard("80000", found)};
  k.example =
      "m=1138lb l=3m t=322mm h_d=5ft L_d=48ft A_s=11200 A_d=13800 A_t=8000 w=18 f=1 k=40 x=21";
  k.work = truck_axles;
  return k;
}

void bridge_formula(Reckoner& r) {
  r.step("W_u", "limit of the group, not rounded", "500*(L*N/(N - 1) + 12*N + 36)", Kind::mass,
         "lb");
  r.step("W_r", "rounded to 500 lb, an exact half down", "500*ceil(W_u/500 - 0.5 - 1e-9)",
         Kind::mass, "lb");
  r.result("W_u");
  r.result("W_r");
  r.step("W_g", "limit with the cap on gross weight", "min(W_r, G_max)", Kind::mass, "lb");
  r.result("W_g");
  r.verdict("weight of the group", "W", "W_g");
  r.caution(
      "Check every group of two or more axles, the outer ones included; two tandems 36 ft or more "
      "apart may "
      "carry 34,000 lb each (exception, from memory).");
  r.caution(cautions::road);
}

WorkingKind bridge_formula_kind() {
  WorkingKind k;
  k.name = "bridge-formula";
  k.title = "US bridge formula for a group of axles";
  k.about =
      "The largest weight on a group of axles by their number and the distance of the outer ones.";
  k.group = "trucks";
  k.sources = {"Bridge formula W = 500 [LN/(N−1) + 12N + 36], 23 CFR 658.17 (second-hand)",
               "Rounding: inferred from the table in West Virginia Code §17C-17-9"};
  k.inputs = {InputSpec{"L", "distance of the outer axles of the group", Kind::length, "ft"}.range(
                  above_zero),
              InputSpec{"N", "axles in the group", Kind::count, ""}.range(2),
              InputSpec{"W", "weight of the group", Kind::mass, "lb"}.range(0).if_known(),
              InputSpec{"G_max", "limit of the gross weight", Kind::mass, "lb"}
                  .range(above_zero)
                  .standard("80000", "23 CFR 658.17, Interstate")};
  k.example = "L=51 N=5 W=78000";
  k.work = bridge_formula;
  return k;
}

}  // namespace

std::vector<WorkingKind> transport_workings() {
  return {truck_axles_kind(), bridge_formula_kind()};
}

}  // namespace deckquire::workings
