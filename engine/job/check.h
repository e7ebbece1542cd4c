// SPDX-License-Identifier: MIT
#pragma once

#include <map>

#include "engine/job/fields.h"
#include "engine/job/finding.h"
#include "engine/job/pointer.h"

// Walks a document and holds every value against its rule; collects ids and the places that refer to them. Nothing is changed.
namespace railwright::job {

class Checker {
 public:
  explicit Checker(Findings& findings) : findings_(findings) {}

  template <Described T>
  void check(const T& object, const Rule& = {}) {
    Fields<T>::each([&](const char* key, auto member, Rule rule = {}) {
      const Pointer::Step step(pointer_, std::string_view(key));
      check(object.*member, rule);
    });
  }

  template <class T>
  void check(const std::vector<T>& list, const Rule& rule) {
    for (std::size_t i = 0; i < list.size(); ++i) {
      const Pointer::Step step(pointer_, i);
      check(list[i], rule);
    }
  }

  template <class T>
  void check(const std::optional<T>& value, const Rule& rule) {
    if (value) check(*value, rule);
  }

  template <class E>
  requires std::is_enum_v<E>
  void check(E choice, const Rule&) {
    if (static_cast<std::size_t>(choice) >= Words<E>::all.size()) report("job.not_a_choice");
  }

  template <class Tag>
  void check(measure::Quantity<Tag> quantity, const Rule& rule) {
    check(quantity.si(), rule);
  }

  void check(const std::string& text, const Rule& rule);
  void check(bool, const Rule&) {}
  void check(int count, const Rule& rule) { check_count(count, rule); }
  void check(long count, const Rule& rule) { check_count(count, rule); }
  void check(double number, const Rule& rule);
  void check(float height, const Rule& rule);
  void check(Length length, const Rule& rule);
  void check(Money money, const Rule& rule);

  // Ids that may be referred to without standing in the document: the rows of a catalogue.
  void know(Kind kind, const std::string& id);
  // Names every reference of these kinds that leads nowhere.
  void resolve(const std::vector<Kind>& kinds);

 private:
  struct Reference {
    Kind kind;
    std::string id, where;
  };
  void report(const char* code, Values values = {});
  void check_count(long count, const Rule& rule);
  void check_id(const std::string& id, const Rule& rule);

  Findings& findings_;
  Pointer pointer_;
  std::map<std::pair<Kind, std::string>, std::string> ids_;  // where each is first given
  std::vector<Reference> references_;
};

// What no single field shows: legs without length, counts that do not fit, choices that need another field.
void check_sense(const Job& job, Findings& findings);
void check_sense(const Catalogue& catalogue, const std::string& where, Findings& findings);

}  // namespace railwright::job
