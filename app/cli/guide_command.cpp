#include <fmt/format.h>

#include <iostream>
#include <memory>
#include <nlohmann/json.hpp>

#include "app/cli/command.h"
#include "app/cli/language_option.h"
#include "core/guide/write_guide.h"
#include "core/plan/ball_template.h"

namespace cli {
namespace {

using core::Result;
using Json = nlohmann::ordered_json;

struct GuideOptions {
    std::string to;
    std::optional<double> templateMm;
    std::string language = "en";
    bool overwrite{};
    bool json{};
};

void printFiles(const std::vector<std::filesystem::path>& files, bool asJson) {
    Json list = Json::array();
    for (const auto& file : files) {
        list.push_back(file.string());
        if (!asJson) {
            std::cout << "wrote " << file.string() << '\n';
        }
    }
    if (asJson) {
        printJson(Json{{"files", list}});
    }
}

Result<void> writeTemplate(const GuideOptions& options) {
    using core::plan::TemplateFile;
    const std::filesystem::path file{options.to};
    const bool isSvg = file.extension() == ".svg";
    if (!isSvg && file.extension() != ".pdf") {
        return core::fail(
            core::ErrorCode::InvalidInput,
            fmt::format("The template is written as PDF or SVG. Give --to a name that "
                        "ends in .pdf or .svg, not {}.",
                        file.filename().string()));
    }
    BOOST_OUTCOME_TRY(content,
                      core::plan::ballTemplate(*options.templateMm,
                                               isSvg ? TemplateFile::Svg : TemplateFile::Pdf));
    BOOST_OUTCOME_TRY(core::writeFile(file, content, {existingBy(options.overwrite)}));
    printFiles({file}, options.json);
    return core::ok();
}

Result<void> writePages(const GuideOptions& options) {
    BOOST_OUTCOME_TRY(written,
                      core::guide::writeGuide(options.to, {existingBy(options.overwrite)}));
    printFiles(written.files, options.json);
    return core::ok();
}

}  // namespace

void addGuide(CLI::App& program, Action& chosen) {
    auto options = std::make_shared<GuideOptions>();
    CLI::App* command = program.add_subcommand(
        "guide", "Writes the guide as pages for a browser, or a template for marking a ball.");
    command->add_option("--to", options->to, "folder for the pages, or file for the template")
        ->required();
    command->add_option("--template", options->templateMm,
                        "instead of the pages a paper strip in true size (PDF or SVG) that goes "
                        "round a ball of this diameter in millimetres");
    addLanguage(*command, options->language);
    addOverwrite(*command, options->overwrite);
    command->add_flag("--json", options->json, "answer as JSON");
    command->callback([options, &chosen] {
        chosen = [options] {
            const InLanguage spoken{options->language};
            return options->templateMm ? writeTemplate(*options) : writePages(*options);
        };
    });
}

}  // namespace cli
