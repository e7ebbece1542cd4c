// SPDX-License-Identifier: MIT
#pragma once

#include <deque>
#include <string>
#include <vector>

#include "engine/plan/plan.h"
#include "sheets/sheets.h"
#include "sheets/shown.h"
#include "sheets/svg.h"

namespace railwright::sheets {

// What every drawing is made from.
struct Pack {
  const job::Job& job;
  const Plan& plan;
  const Words& words;
  Paper paper;
  Shown shown;

  std::string say(const std::string& key) const { return words.text(key); }
  std::string say(const std::string& key, const std::map<std::string, std::string>& values) const { return words.fill(key, values); }
};

enum class Turn { upright, wide };

// One sheet being drawn: the head, the caution strip and the title strip are taken off; `box` is what is left.
struct Page {
  Svg svg;
  Box box;
  std::string id, title, scale;
};

// The sheets in order. Titles and sub-titles come from words "sheet.<key>.title" and ".say"; the caution strip from "sheet.<key>.caution" where it exists.
class Book {
 public:
  explicit Book(const Pack& pack) : pack_(pack) {}

  // `key` names the words, `id` the sheet (of several under one key). `detail` follows the title ("leg A").
  Page& add(const std::string& key, const std::string& id, Turn turn, const std::string& detail = {});
  // The box that a new sheet of `key` would have.
  Box box_of(const std::string& key, Turn turn) const;
  Page& last() { return pages_.back(); }
  std::vector<Sheet> finish();

 private:
  void draw_head(Page& page, const std::string& key, Box edge);
  void draw_strip(const Page& page, Svg& svg, std::size_t number) const;
  std::vector<std::string> subtitle(const std::string& key, double width) const;
  std::vector<std::string> caution(const std::string& key, double width) const;
  Box edge_of(Turn turn) const;

  const Pack& pack_;
  std::deque<Page> pages_;
  std::deque<Turn> turns_;
};

// Lines of text from `at` downwards; gives the base line after the last.
double draw_lines(Svg& svg, Spot at, const std::vector<std::string>& lines, Type type = {}, double pitch = 0);
inline constexpr double kLine = 5.0;  // pitch of running text, mm

}  // namespace railwright::sheets
