#include "app/cli/command.h"
#include "core/about/about.h"

int main(int argc, char** argv) {
    CLI::App program{"Turnmark reads the spin of a struck ball from video, with its uncertainty."};
    program.set_version_flag("--version", [] {
        std::string text;
        for (const std::string& line : core::about::aboutLines()) {
            text += (text.empty() ? "" : "\n") + line;
        }
        return text;
    });
    program.require_subcommand(1);
    cli::Action chosen;
    cli::addInspect(program, chosen);
    cli::addRate(program, chosen);
    cli::addClock(program, chosen);
    cli::addRead(program, chosen);
    cli::addTestClip(program, chosen);
    cli::addAccuracy(program, chosen);
    cli::addDemo(program, chosen);
    cli::addPlan(program, chosen);
    cli::addSettings(program, chosen);
    cli::addIntake(program, chosen);
    cli::addAssign(program, chosen);
    cli::addTallies(program, chosen);
    cli::addSummary(program, chosen);
    cli::addExport(program, chosen);
    cli::addPublish(program, chosen);
    cli::addDoubts(program, chosen);
    cli::addBackups(program, chosen);
    cli::addRestore(program, chosen);
    cli::addRescue(program, chosen);
    cli::addPack(program, chosen);
    cli::addUnpack(program, chosen);
    cli::addHistory(program, chosen);
    cli::addEvidence(program, chosen);
    cli::addCheck(program, chosen);
    cli::addGuide(program, chosen);
    return cli::run(program, argc, argv, chosen);
}
