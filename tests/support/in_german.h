#pragma once

#include "core/base/words.h"

namespace core {

/// What core says is German while one is alive.
class InGerman {
public:
    InGerman() { words::speak("de_AT.UTF-8"); }
    ~InGerman() { words::speak("en"); }
    InGerman(const InGerman&) = delete;
    InGerman& operator=(const InGerman&) = delete;
};

}  // namespace core
