#include <iostream>
#include <memory>
#include <nlohmann/json.hpp>
#include <optional>

#include "app/cli/command.h"
#include "app/cli/credits_options.h"
#include "app/cli/language_option.h"
#include "app/cli/progress_line.h"
#include "core/doubts/find_doubts.h"
#include "core/findings/settings.h"
#include "core/project/store.h"
#include "core/publish/last_published.h"
#include "core/publish/publish.h"

namespace cli {
namespace {

using Json = nlohmann::ordered_json;

struct PublishCommand {
    std::string project;
    std::string folder;
    std::string language{"en"};
    bool blindHitters{};
    bool films{};
    CreditsOptions credits;
    bool overwrite{};
    bool json{};
};

Json pathsJson(const std::vector<std::filesystem::path>& files) {
    Json paths = Json::array();
    for (const auto& file : files) {
        paths.push_back(file.string());
    }
    return paths;
}

void printPublished(const core::publish::Published& published, bool asJson) {
    if (asJson) {
        printJson(Json{{"files", pathsJson(published.written.files)},
                       {"left_from_before", pathsJson(published.written.leftOver)},
                       {"remarks", published.remarks}});
        return;
    }
    for (const auto& file : published.written.files) {
        std::cout << "wrote " << file.string() << '\n';
    }
    for (const auto& file : published.written.leftOver) {
        std::cout << "left from before, no part of this: " << file.string() << '\n';
    }
    for (const auto& remark : published.remarks) {
        std::cout << "note: " << remark << '\n';
    }
}

/// Publishing is a look at the findings: counted in the project, as the window counts its own. When
/// and what was published is noted there as well.
core::Result<void> note(const std::string& project, const core::publish::LastPublished& published) {
    BOOST_OUTCOME_TRY(store, core::project::Store::open(project));
    BOOST_OUTCOME_TRY(core::findings::keepLook(
        *store, core::findings::nextLook(core::findings::looks(*store->snapshot()),
                                         published.fingerprint)));
    return core::publish::noteLastPublished(*store, published);
}

/// What is said of the credits is kept in the project, for the next time and for the window.
core::Result<void> keepCredits(const std::string& project, const CreditsOptions& options) {
    if (!options.sayAnything()) {
        return core::ok();
    }
    BOOST_OUTCOME_TRY(store, core::project::Store::open(project));
    return core::publish::keepCredits(*store, options.over(*store));
}

core::Result<void> publishProject(const PublishCommand& command) {
    using core::publish::Films;
    core::publish::PublishOptions options;
    options.blindHitters = command.blindHitters;
    options.films = command.films ? Films::OneAShot : Films::None;
    options.foreign = existingBy(command.overwrite);
    options.publishedOn = core::publish::today();
    BOOST_OUTCOME_TRY(keepCredits(command.project, command.credits));
    BOOST_OUTCOME_TRY(store, core::project::Store::openToRead(command.project));
    BOOST_OUTCOME_TRY(material, core::publish::gather(*store, options.films));
    BOOST_OUTCOME_TRY(doubtful, core::doubts::gatherAll(*store));
    store.reset();
    options.findDoubts = [&](const core::findings::Findings& findings) {
        return core::Result<core::publish::OpenDoubts>{
            core::publish::openDoubtsOf(core::doubts::findDoubts(doubtful, findings))};
    };
    auto line = std::make_optional<ProgressLine>();
    auto published = [&] {
        const InLanguage spoken{command.language};
        return core::publish::publish(
            material, command.folder, options, {},
            [&line](double share, const std::string& doing) { line->show(share, doing); });
    }();
    line.reset();
    BOOST_OUTCOME_TRY(done, std::move(published));
    const auto folder = std::filesystem::absolute(command.folder).string();
    if (const auto noted = note(command.project, {options.publishedOn, done.fingerprint, folder});
        !noted) {
        done.remarks.push_back("This publication is not noted in the project. " +
                               noted.error().message);
    }
    printPublished(done, command.json);
    return core::ok();
}

}  // namespace

void addPublish(CLI::App& program, Action& chosen) {
    auto command = std::make_shared<PublishCommand>();
    CLI::App* app = program.add_subcommand(
        "publish", "Writes the findings for others: page, PDF, tables, workbook, figures.");
    app->add_option("project", command->project, "project file (.turnmark)")->required();
    app->add_option("--to", command->folder, "folder to write into")->required();
    app->add_flag("--blind-hitters", command->blindHitters, "H1, H2, … instead of hitters' names");
    app->add_flag("--films", command->films, "a slow annotated film of every shot that counts");
    addCredits(*app, command->credits);
    addLanguage(*app, command->language);
    addOverwrite(*app, command->overwrite);
    app->add_flag("--json", command->json, "answer as JSON");
    app->callback([command, &chosen] { chosen = [command] { return publishProject(*command); }; });
}

}  // namespace cli
