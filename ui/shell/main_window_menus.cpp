#include <QActionGroup>
#include <QMenuBar>
#include <QSettings>

#include "core/about/about.h"
#include "ui/models/spin_unit.h"
#include "ui/reading/card/reading_card.h"
#include "ui/reading/reading_screen.h"
#include "ui/shell/cautions.h"
#include "ui/shell/language.h"
#include "ui/shell/main_window.h"
#include "ui/shell/project_files.h"
#include "ui/shell/status_line.h"
#include "ui/shell/step_band.h"
#include "ui/style/ask.h"

/// The menus, and what they do that belongs to no project.
namespace ui::shell {

void MainWindow::makeMenus() {
    makeProjectMenu();
    makeViewMenu();
    makeHelpMenu();
}

void MainWindow::makeProjectMenu() {
    auto* project = m_band->menus().addMenu(tr("&Project"));
    auto* fresh = action(QStringLiteral("project.new"), tr("&New…"), QKeySequence::New,
                         tr("A new, empty project file"));
    auto* open = action(QStringLiteral("project.open"), tr("&Open…"), QKeySequence::Open,
                        tr("Open a project file"));
    m_demo =
        action(QStringLiteral("project.demo"), tr("Open the &demo"), {}, tr("Invented figures"));
    m_close = action(QStringLiteral("project.close"), tr("&Close project"), QKeySequence::Close,
                     tr("Back to the start page; everything is in the file already"));
    auto* quit = action(QStringLiteral("program.quit"), tr("&Quit"), QKeySequence::Quit,
                        tr("Leave; everything is in the file already"));
    m_backupsAction = action(QStringLiteral("project.backups"), tr("Cop&ies…"), {},
                             tr("The copies of this project, and the way back to one of them"));
    auto* unpack = action(QStringLiteral("project.unpack"), tr("&Unpack…"), {},
                          tr("A project that was packed on another machine"));
    project->addActions({fresh, open, m_demo});
    project->addSeparator();
    project->addAction(m_backupsAction);
    m_pack = project->addMenu(tr("&Pack into one file"));
    addPack(QStringLiteral("project.pack"), tr("With the clips of &kept shots…"),
            core::pack::Footage::OfKeptShots);
    addPack(QStringLiteral("project.pack_all"), tr("With &all clips…"), core::pack::Footage::All);
    addPack(QStringLiteral("project.pack_none"), tr("&Without clips…"), core::pack::Footage::None);
    project->addAction(unpack);
    project->addSeparator();
    project->addActions({m_close, quit});
    onTrigger(m_backupsAction, [this] { m_files->showBackups(m_workspace.store->file()); });
    onTrigger(unpack, [this] { m_files->askUnpack(); });
    onTrigger(fresh, [this] { newProject(); });
    onTrigger(open, [this] { chooseProject(); });
    onTrigger(m_demo, [this] { openDemo(); });
    onTrigger(m_close, [this] { closeProject(); });
    connect(quit, &QAction::triggered, this, &QWidget::close);
}

void MainWindow::addPack(const QString& name, const QString& text, core::pack::Footage footage) {
    auto* made =
        action(name, text, {}, tr("The project as it is now, to carry to another machine"));
    m_pack->addAction(made);
    onTrigger(made, [this, footage] { m_files->askPack(m_workspace.store->file(), footage); });
}

void MainWindow::makeViewMenu() {
    auto* view = m_band->menus().addMenu(tr("&View"));
    view->addActions(m_screenActions->actions());
    view->addSeparator();
    auto* larger = action(QStringLiteral("view.larger"), tr("&Larger text"),
                          QKeySequence{Qt::CTRL | Qt::SHIFT | Qt::Key_Up}, tr("Larger text"));
    auto* smaller = action(QStringLiteral("view.smaller"), tr("&Smaller text"),
                           QKeySequence{Qt::CTRL | Qt::SHIFT | Qt::Key_Down}, tr("Smaller text"));
    onTrigger(larger, [this] { scaleText(1.1); });
    onTrigger(smaller, [this] { scaleText(1.0 / 1.1); });
    view->addActions({larger, smaller});
    view->addSeparator();
    auto* looks = new QActionGroup{this};
    const Appearance stored =
        appearanceFrom(QSettings{}.value(QStringLiteral("appearance")).toString());
    for (const auto& [text, appearance] :
         {std::pair{tr("As the s&ystem"), Appearance::System},
          std::pair{tr("L&ight"), Appearance::Light}, std::pair{tr("&Dark"), Appearance::Dark}}) {
        auto* look = view->addAction(
            text, this, [this, appearance = appearance] { setAppearance(appearance); });
        look->setCheckable(true);
        look->setChecked(appearance == stored);
        looks->addAction(look);
    }
    addSpinUnits(*view);
    addLanguages(*view);
}

void MainWindow::makeHelpMenu() {
    auto* help = m_band->menus().addMenu(tr("&Help"));
    auto* keys = action(QStringLiteral("help.keys"), tr("All &keys…"),
                        QKeySequence{Qt::CTRL | Qt::Key_K}, tr("Every action with its key"));
    onTrigger(keys, [this] { showKeys(); });
    auto* guide = action(QStringLiteral("help.guide"), tr("&Guide"), QKeySequence{Qt::Key_F1},
                         tr("How it is done, at the page that fits the screen"));
    onTrigger(guide, [this] { showGuide(); });
    help->addActions({guide, keys});
    help->addAction(tr("&Cautions"), this, &MainWindow::showCautions);
    help->addAction(tr("&About"), this, &MainWindow::showAbout);
}

void MainWindow::showCautions() {
    style::tell(*this, tr("Cautions"), cautionsText().replace(u'\n', QStringLiteral("\n\n")));
}

void MainWindow::showAbout() {
    QStringList lines;
    for (const std::string& line : core::about::aboutLines()) {
        lines << QString::fromStdString(line);
    }
    lines << tr("Qt %1").arg(QLatin1String{qVersion()});
    style::tell(*this, tr("About Turnmark"),
                tr("%1\n\nSpin rates of a struck ball, read from video, with their "
                   "uncertainty.\n\nFree software under the GNU General Public "
                   "License, version 3 or later; it comes without any warranty.")
                    .arg(lines.join(QLatin1Char('\n'))));
}

void MainWindow::setAppearance(Appearance appearance) {
    QSettings settings;
    settings.setValue(QStringLiteral("appearance"), nameOf(appearance));
    applyAppearance(appearance, settings.value(QStringLiteral("text_scale"), 1.0).toDouble());
}

/// A second unit beside rpm.
void MainWindow::addSpinUnits(QMenu& view) {
    using models::SpinUnit;
    view.addSeparator();
    auto* units = new QActionGroup{this};
    for (const auto& [text, unit] :
         {std::pair{tr("Spin in &rpm"), SpinUnit::RpmOnly},
          std::pair{tr("Spin in rpm and &turns per second"), SpinUnit::TurnsPerSecond},
          std::pair{tr("Spin in rpm and r&ad/s"), SpinUnit::RadiansPerSecond}}) {
        auto* choice = view.addAction(text, this, [this, unit = unit] {
            models::setSpinUnit(unit);
            if (m_reading != nullptr) {
                m_reading->card().refresh();
            }
        });
        choice->setCheckable(true);
        choice->setChecked(unit == models::spinUnit());
        units->addAction(choice);
    }
}

/// Names of languages stand in their own language.
void MainWindow::addLanguages(QMenu& view) {
    view.addSeparator();
    auto* menu = view.addMenu(tr("La&nguage"));
    auto* languages = new QActionGroup{this};
    for (const auto& [text, language] :
         {std::pair{tr("As the system"), QString{}},
          std::pair{QStringLiteral("English"), QStringLiteral("en")},
          std::pair{QStringLiteral("Deutsch"), QStringLiteral("de")}}) {
        auto* choice = menu->addAction(text, this, [this, language = language] {
            keepLanguage(language);
            m_status->tell(tr("The language changes when Turnmark is started again."),
                           StatusLine::kLongMilliseconds);
        });
        choice->setCheckable(true);
        choice->setChecked(language == keptLanguage());
        languages->addAction(choice);
    }
}

void MainWindow::scaleText(double factor) {
    QSettings settings;
    const double scale =
        std::clamp(settings.value(QStringLiteral("text_scale"), 1.0).toDouble() * factor, 0.7, 2.5);
    settings.setValue(QStringLiteral("text_scale"), scale);
    applyAppearance(appearanceFrom(settings.value(QStringLiteral("appearance")).toString()), scale);
}

}  // namespace ui::shell
