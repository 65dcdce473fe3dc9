#pragma once

#include <CLI/CLI.hpp>
#include <string>
#include <vector>

#include "core/intake/read_film.h"

namespace cli {

/// Films to be read without a project, and what is known of camera and ball.
struct FilmOptions {
    std::vector<std::string> clips;
    core::intake::StatedRate rate;
    core::project::Session session;
};

/// Adds them to a command. The options must outlive the parsing.
void addFilmOptions(CLI::App& command, FilmOptions& options);

}  // namespace cli
