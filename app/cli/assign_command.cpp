#include <iostream>
#include <memory>
#include <nlohmann/json.hpp>

#include "app/cli/command.h"
#include "app/cli/session_option.h"
#include "core/intake/assign_by_plan.h"
#include "core/intake/film_order.h"
#include "core/intake/slate_cards.h"
#include "core/project/store.h"

namespace cli {
namespace {

using core::Result;
using Json = nlohmann::ordered_json;

struct AssignOptions {
    std::string project;
    std::string session;
    bool byCards{};
    bool byOrder{};
    bool anyway{};
    bool json{};
};

Result<std::vector<core::intake::ClipSlates>> slatesOf(core::project::Store& store,
                                                       core::project::SessionId session) {
    std::vector<core::intake::ClipSlates> slates;
    BOOST_OUTCOME_TRY(clips, core::intake::filmOrder(store, session));
    for (const auto clip : clips) {
        BOOST_OUTCOME_TRY(search, core::intake::slateSearchOf(store, clip));
        BOOST_OUTCOME_TRY(stretches, core::intake::readSlateCards(search));
        slates.push_back({clip, std::move(stretches)});
    }
    return slates;
}

Result<core::intake::AssignmentReport> assigned(core::project::Store& store,
                                                const AssignOptions& options) {
    BOOST_OUTCOME_TRY(session, sessionNamed(*store.snapshot(), options.session));
    if (options.byCards) {
        BOOST_OUTCOME_TRY(slates, slatesOf(store, session));
        return core::intake::assignBySlateCards(store, session, slates);
    }
    using core::intake::WhenCountsDiffer;
    return core::intake::assignByPlanOrder(
        store, session, options.anyway ? WhenCountsDiffer::Assign : WhenCountsDiffer::Refuse);
}

Result<void> runAssign(const AssignOptions& options) {
    if (options.byCards == options.byOrder) {
        return core::fail(core::ErrorCode::InvalidInput,
                          "Say how: --cards (by the slate cards in the clips) or --order (by the "
                          "order of the plan).");
    }
    BOOST_OUTCOME_TRY(store, core::project::Store::open(options.project));
    BOOST_OUTCOME_TRY(report, assigned(*store, options));
    if (options.json) {
        printJson(Json{{"assigned", report.assigned},
                       {"already_right", report.alreadyRight},
                       {"left_elsewhere", report.leftElsewhere},
                       {"left_open", report.leftOpen},
                       {"remarks", report.remarks}});
        return core::ok();
    }
    std::cout << report.assigned << " assigned, " << report.alreadyRight << " already right, "
              << report.leftElsewhere << " assigned to others and not changed, " << report.leftOpen
              << " not assigned\n";
    for (const auto& remark : report.remarks) {
        std::cout << remark << '\n';
    }
    return core::ok();
}

}  // namespace

void addAssign(CLI::App& program, Action& chosen) {
    auto options = std::make_shared<AssignOptions>();
    CLI::App* command = program.add_subcommand(
        "assign",
        "Assigns the shots of a filming day to implements and hitters, by slate cards or by the "
        "order of the plan.");
    command->add_option("project", options->project, "project file (.turnmark)")->required();
    command->add_option("--session", options->session,
                        "name of the filming day; else the last one");
    command->add_flag("--cards", options->byCards, "by the slate cards in the clips");
    command->add_flag("--order", options->byOrder, "by the order of the plan");
    command->add_flag("--anyway", options->anyway,
                      "with --order: also when shots found and shots planned differ");
    command->add_flag("--json", options->json, "answer as JSON");
    command->callback([options, &chosen] { chosen = [options] { return runAssign(*options); }; });
}

}  // namespace cli
