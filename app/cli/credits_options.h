#pragma once

#include <CLI/CLI.hpp>
#include <optional>
#include <string>

#include "core/publish/credits.h"

namespace cli {

/// Absent: left as the project has it; empty: taken away.
struct CreditsOptions {
    std::optional<std::string> author;
    std::optional<std::string> licence;
    std::optional<std::string> citeAs;

    [[nodiscard]] bool sayAnything() const { return author || licence || citeAs; }
    [[nodiscard]] core::publish::Credits over(const core::project::Store& store) const {
        const auto kept = core::publish::creditsOf(*store.snapshot());
        return {author.value_or(kept.author), licence.value_or(kept.licence),
                citeAs.value_or(kept.citeAs)};
    }
};

inline void addCredits(CLI::App& app, CreditsOptions& credits) {
    app.add_option("--author", credits.author, "who answers for the findings");
    app.add_option("--licence", credits.licence,
                   "on what terms the files may be used: \"CC BY 4.0\", or an address");
    app.add_option("--cite-as", credits.citeAs, "how the publication is to be cited");
}

}  // namespace cli
