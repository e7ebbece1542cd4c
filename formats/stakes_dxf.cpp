// SPDX-License-Identifier: MIT
#include "formats/stakes.h"
#include "formats/stakes_parts.h"
#include "formats/text.h"

namespace railwright::formats {
namespace {

using measure::Vec2;

void put(std::string& dxf, int code, const std::string& value) {
  dxf += std::to_string(code);
  dxf += '\n';
  dxf += value;
  dxf += '\n';
}

void put_place(std::string& dxf, int code, Vec2 at, double height) {
  put(dxf, code, fixed_text(at.x, 4));
  put(dxf, code + 10, fixed_text(at.y, 4));
  put(dxf, code + 20, fixed_text(height, 4));
}

}  // namespace

std::string dxf_of(const job::Site& site, const std::vector<Stake>& stakes) {
  std::string dxf;
  put(dxf, 0, "SECTION");
  put(dxf, 2, "ENTITIES");
  for (const LegEnds& ends : leg_ends(site)) {
    put(dxf, 0, "LINE");
    put(dxf, 8, "LEGS");
    put_place(dxf, 10, ends.from, 0);
    put_place(dxf, 11, ends.to, 0);
  }
  for (const Stake& stake : stakes) {
    put(dxf, 0, "POINT");
    put(dxf, 8, "POSTS");
    put_place(dxf, 10, stake.at, stake.height);
    put(dxf, 0, "TEXT");
    put(dxf, 8, "NAMES");
    put_place(dxf, 10, stake.at, stake.height);
    put(dxf, 40, "0.3000");
    put(dxf, 1, one_line(stake.name));
  }
  put(dxf, 0, "ENDSEC");
  put(dxf, 0, "EOF");
  return dxf;
}

}  // namespace railwright::formats
