// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

namespace railwright::job {

// The JSON pointer (RFC 6901) of the value being looked at. A `Step` lengthens it for as long as it lives.
class Pointer {
 public:
  const std::string& text() const { return text_; }
  std::string child(std::string_view key) const { return text_ + '/' + escaped(key); }

  class Step {
   public:
    Step(Pointer& pointer, std::string_view key) : pointer_(pointer), size_(pointer.text_.size()) {
      pointer_.text_ += '/';
      pointer_.text_ += escaped(key);
    }
    Step(Pointer& pointer, std::size_t index) : Step(pointer, std::to_string(index)) {}
    ~Step() { pointer_.text_.resize(size_); }
    Step(const Step&) = delete;
    Step& operator=(const Step&) = delete;

   private:
    Pointer& pointer_;
    std::size_t size_;
  };

 private:
  static std::string escaped(std::string_view key) {
    std::string out;
    for (const char c : key) {
      if (c == '~')
        out += "~0";
      else if (c == '/')
        out += "~1";
      else
        out += c;
    }
    return out;
  }

  std::string text_;
};

}  // namespace railwright::job
