#pragma once

#include <CLI/CLI.hpp>
#include <string>

#include "core/base/words.h"

namespace cli {

/// What is written for others speaks this language while one is alive; the command line itself
/// speaks English.
class InLanguage {
public:
    explicit InLanguage(const std::string& language) { core::words::speak(language); }
    ~InLanguage() { core::words::speak("en"); }
    InLanguage(const InLanguage&) = delete;
    InLanguage& operator=(const InLanguage&) = delete;
};

inline void addLanguage(CLI::App& command, std::string& language) {
    command.add_option("--language", language, "language of what is written: en, de")
        ->check(CLI::IsMember({"en", "de"}))
        ->capture_default_str();
}

}  // namespace cli
