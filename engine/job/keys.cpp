// SPDX-License-Identifier: MIT
#include "engine/job/keys.h"

#include "engine/job/pointer.h"
#include "engine/job/to_json.h"

namespace railwright::job {
namespace {

class KeyLister {
 public:
  std::vector<Key> take() { return std::move(keys_); }

  template <Described T>
  void list_fields(const T& fresh) {
    Fields<T>::each([&](const char* name, auto member, Rule rule = {}) {
      const Pointer::Step step(pointer_, std::string_view(name));
      list(fresh.*member, rule);
    });
  }

 private:
  Key& add(const char* type, const Rule& rule) {
    Key key;
    key.path = pointer_.text();
    key.type = type;
    key.required = rule.required;
    keys_.push_back(std::move(key));
    return keys_.back();
  }

  template <class T>
  void add_value(const char* type, const T& fresh, const Rule& rule, const Rule& limits = {}) {
    Key& key = add(type, rule);
    key.bounded = limits.bounded;
    key.least = limits.least;
    key.most = limits.most;
    if (!rule.required && !in_list_) key.fallback = to_json(fresh).dump();
  }

  static Rule or_else(const Rule& rule, const Rule& fallback) { return rule.bounded ? rule : fallback; }

  template <Described T>
  void list(const T& fresh, const Rule& rule) {
    add("object", rule);
    const bool outer = std::exchange(in_list_, false);
    list_fields(fresh);
    in_list_ = outer;
  }

  template <class T>
  void list(const std::vector<T>&, const Rule& rule) {
    add("list", rule);
    const Pointer::Step step(pointer_, std::string_view("*"));
    Rule item = rule;
    item.required = false;
    const bool outer = std::exchange(in_list_, true);
    list(T{}, item);
    in_list_ = outer;
  }

  template <class T>
  void list(const std::optional<T>&, const Rule& rule) {
    const std::size_t place = keys_.size();
    list(T{}, rule);
    keys_[place].nullable = true;
    keys_[place].fallback.clear();
  }

  template <class E>
  requires std::is_enum_v<E>
  void list(E fresh, const Rule& rule) {
    add_value("choice", fresh, rule);
    for (const std::string_view word : Words<E>::all) keys_.back().choices.emplace_back(word);
  }

  template <class Tag>
  void list(measure::Quantity<Tag> fresh, const Rule& rule) {
    list(fresh.si(), rule);
  }

  void list(const std::string& fresh, const Rule& rule) { add_value(rule.names == Kind::none ? "text" : "id", fresh, rule); }
  void list(bool fresh, const Rule& rule) { add_value("flag", fresh, rule); }
  void list(int fresh, const Rule& rule) { add_value("count", fresh, rule, or_else(rule, kAmount)); }
  void list(long fresh, const Rule& rule) { add_value("count", fresh, rule, or_else(rule, kAmount)); }
  void list(double fresh, const Rule& rule) { add_value("number", fresh, rule, or_else(rule, kAmount)); }
  void list(float fresh, const Rule& rule) {
    add_value("number", fresh, rule, or_else(rule, kAmount));
    keys_.back().nullable = true;
  }
  void list(Length fresh, const Rule& rule) { add_value("length", fresh, rule, or_else(rule, kSize)); }
  void list(Money fresh, const Rule& rule) { add_value("money", fresh, rule, or_else(rule, kAmount)); }

  std::vector<Key> keys_;
  Pointer pointer_;
  bool in_list_ = false;
};

}  // namespace

std::vector<Key> document_keys() {
  KeyLister lister;
  lister.list_fields(Job{});
  return lister.take();
}

}  // namespace railwright::job
