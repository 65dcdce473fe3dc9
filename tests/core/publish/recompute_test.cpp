#include <gtest/gtest.h>

#include "core/findings/settings.h"
#include "tests/core/publish/published_folder.h"

namespace core::publish {
namespace {

/// Everything that the scripts compute anew: a noticeable step, bands, an implement in two
/// conditions, an attribute.
Material projectWithEverything() {
    tests::InventedNames names = tests::manyImplements(5);
    auto material = tests::inventedMaterial(names, 6);
    auto snapshot = *material.snapshot;
    std::vector<project::Implement> implements;
    for (const auto& implement : snapshot.implements) {
        implements.push_back(implement);
        implements.back().attributes["mass (g)"] =
            std::to_string(300 + (7 * implement.id.value) % 11);
    }
    implements[1].name = implements[0].name;
    implements[1].condition = "worn";
    snapshot.implements = project::Entities{implements};
    snapshot.settings[std::string{findings::kStepKey}] = "250";
    snapshot.settings[std::string{findings::kBandsKey}] = "low 1830 medium 2400 high";
    material.snapshot = std::make_shared<const project::Snapshot>(std::move(snapshot));
    return material;
}

struct Script {
    std::string program;
    std::string file;
};

class RecomputeScripts : public tests::PublishedFolder {
protected:
    [[nodiscard]] std::vector<Script> scripts() const {
        std::vector<Script> found{{"python3", "recompute.py"}};
        if (tests::hasProgram("Rscript")) {
            found.push_back({"Rscript", "recompute.R"});
        }
        return found;
    }
    [[nodiscard]] tests::Finished run(const Script& script, const std::string& out) const {
        return tests::runProgram(
            {script.program, folder.file(out + "/" + script.file), folder.file(out)});
    }
    /// Replaces the first value of a column that is not empty.
    void spoil(const std::string& table, const std::string& column, const std::string& by) const {
        const auto spoilt = tests::runProgram(
            {"python3", "-c",
             "import csv,sys\n"
             "file,column,by=sys.argv[1:]\n"
             "rows=list(csv.DictReader(open(file,newline='',encoding='utf-8')))\n"
             "row=next(r for r in rows if r[column])\n"
             "row[column]=str(float(row[column])+float(by[1:])) if by[0]=='+' else by\n"
             "w=csv.DictWriter(open(file,'w',newline='',encoding='utf-8'),rows[0])\n"
             "w.writeheader(); w.writerows(rows)\n",
             folder.file("spoilt/" + table + ".csv"), column, by});
        ASSERT_EQ(spoilt.status, 0) << spoilt.errors;
    }
};

TEST_F(RecomputeScripts, FindEveryPublishedNumber) {
    publishInto("out", projectWithEverything());
    for (const auto& script : scripts()) {
        const auto done = run(script, "out");
        EXPECT_EQ(done.status, 0) << script.file << '\n' << done.output << done.errors;
        for (const char* table :
             {"readings", "summary", "cell_parts", "implements", "ranking", "pairs", "comparisons",
              "ranking_by_hitter", "pairs_by_hitter", "conditions", "drift", "trends", "about"}) {
            EXPECT_NE(done.output.find(table), std::string::npos) << script.file << table;
        }
    }
}

// The scripts would be worth nothing if they passed whatever stands there. Each number is off in
// one copy and must be named; every number is computed from the readings, none from another one.
TEST_F(RecomputeScripts, NoticeEveryNumberThatIsOff) {
    struct Spoilt {
        const char* table;
        const char* column;
        const char* by;     ///< "+" and what is added, or what stands there instead
        const char* named;  ///< how the scripts call it
    };
    const std::vector<Spoilt> all{{"readings", "own_uncertainty_rpm", "+0.1", "own part"},
                                  {"summary", "mean_rpm", "+0.2", "mean"},
                                  {"summary", "interval_low_rpm", "+0.2", "interval"},
                                  {"summary", "shot_scatter_rpm", "+0.5", "shots' scatter"},
                                  {"cell_parts", "effect_rpm", "+0.1", "effect"},
                                  {"implements", "mean_rpm", "+0.2", "mean"},
                                  {"ranking", "mean_rpm", "+0.2", "mean"},
                                  {"ranking", "rank_worst", "+1", "worst rank"},
                                  {"ranking", "first_chance", "+-0.2", "chance to be first"},
                                  {"ranking", "letters", "abcde", "letters"},
                                  {"ranking", "band_of_low", "low", "band"},
                                  {"pairs", "interval_high_rpm", "+0.5", "interval"},
                                  {"pairs", "verdict", "not_settled", "verdict"},
                                  {"comparisons", "f", "+100", "F"},
                                  {"conditions", "difference_rpm", "+0.5", "difference"},
                                  {"drift", "slope_rpm_per_shot", "+0.1", "slope"},
                                  {"trends", "spearman", "+-0.1", "spearman"}};
    publishInto("spoilt", projectWithEverything());
    for (const Spoilt& spoilt : all) {
        spoil(spoilt.table, spoilt.column, spoilt.by);
    }
    for (const auto& script : scripts()) {
        const auto done = run(script, "spoilt");
        EXPECT_EQ(done.status, 1) << script.file << '\n' << done.errors;
        const std::string named = done.output.substr(done.output.find("Not the same"));
        for (const Spoilt& spoilt : all) {
            EXPECT_NE(named.find(std::string{spoilt.table} + ": " + spoilt.named),
                      std::string::npos)
                << script.file << ": " << spoilt.table << '.' << spoilt.column << '\n'
                << named;
        }
    }
}

}  // namespace
}  // namespace core::publish
