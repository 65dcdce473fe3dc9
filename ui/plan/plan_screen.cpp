#include "ui/plan/plan_screen.h"

#include <QClipboard>
#include <QGuiApplication>
#include <QHeaderView>
#include <QLabel>
#include <QPushButton>
#include <QSplitter>
#include <QTableView>
#include <QVBoxLayout>
#include <algorithm>

#include "core/base/files.h"
#include "core/base/words.h"
#include "core/intake/planned_cells.h"
#include "core/intake/tally_sheet.h"
#include "core/plan/advice.h"
#include "core/plan/implement_table.h"
#include "core/plan/print.h"
#include "core/project/clip_location.h"
#include "ui/plan/advice_panel.h"
#include "ui/plan/day_model.h"
#include "ui/plan/implement_model.h"
#include "ui/plan/plan_desk.h"
#include "ui/plan/settings_panel.h"
#include "ui/style/ask.h"
#include "ui/style/data_table.h"
#include "ui/style/hold_back.h"
#include "ui/style/plain_label.h"
#include "ui/style/rank.h"
#include "ui/style/scrolled_down.h"
#include "ui/style/text_font.h"
#include "ui/style/tokens.h"

namespace ui::plan {
namespace {

QTableView* planTable(QAbstractItemModel* model, const QString& name) {
    constexpr double kFewestRows = 2.6;  // the last one in part: there is more below
    QTableView* view = style::makeTable(model, kFewestRows);
    view->setAccessibleName(name);
    view->horizontalHeader()->setHighlightSections(false);
    view->horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    return view;
}

QWidget* row(const std::vector<QWidget*>& widgets, const QString& title = {}) {
    auto* bar = new QWidget;
    auto* layout = new QHBoxLayout{bar};
    layout->setContentsMargins(0, 0, 0, 0);
    if (!title.isEmpty()) {
        auto* label = new QLabel{title};
        style::setTextSize(label, style::TextSize::Body, style::Weight::Strong);
        layout->addWidget(label);
        layout->addStretch();
    }
    for (QWidget* widget : widgets) {
        layout->addWidget(widget);
    }
    return bar;
}

}  // namespace

PlanScreen::PlanScreen(core::project::Store& store, QWidget* parent)
    : QWidget{parent},
      m_store{store},
      m_desk{new PlanDesk{store, this}},
      m_implements{new ImplementModel{*m_desk, this}},
      m_day{new DayModel{this}} {
    m_trouble = new QLabel;
    m_trouble->setObjectName(QStringLiteral("trouble"));
    m_trouble->setWordWrap(true);
    m_trouble->setTextFormat(Qt::PlainText);
    m_trouble->hide();
    auto* split = new QSplitter{Qt::Horizontal};
    split->addWidget(makeTables());
    split->addWidget(makeFacts());
    split->setStretchFactor(0, 4);
    split->setStretchFactor(1, 5);
    split->setChildrenCollapsible(false);
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(style::kCardsPx, style::kBetweenPx, style::kCardsPx,
                               style::kBetweenPx);
    layout->addWidget(makeHead());
    layout->addWidget(m_trouble);
    layout->addWidget(split, 1);
    connect(m_desk, &PlanDesk::changed, this, &PlanScreen::refresh);
    connect(m_desk, &PlanDesk::troubled, this, &PlanScreen::say);
    refresh();
    style::whenFontChanges(this, [this] { fitColumns(); });
}

PlanScreen::~PlanScreen() = default;

void PlanScreen::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    fitColumns();
}

void PlanScreen::fitColumns() {
    constexpr int kThreeColumnsPx = 1180;      // narrower: words of the third would be cut,
    constexpr int kThreeColumnsLetters = 150;  // as with large text
    const int least =
        std::max(kThreeColumnsPx, kThreeColumnsLetters * fontMetrics().averageCharWidth());
    m_facts->setDirection(width() < least ? QBoxLayout::TopToBottom : QBoxLayout::LeftToRight);
    constexpr int kHeadLetters = 120;  // fewer: the buttons would leave no room for the answer
    const bool isNarrow = width() < kHeadLetters * fontMetrics().averageCharWidth();
    m_head->setDirection(isNarrow ? QBoxLayout::TopToBottom : QBoxLayout::LeftToRight);
}

QString PlanScreen::tableFilter() {
    return tr("Tables (*.csv *.tsv *.txt);;All files (*)");
}

QPushButton* PlanScreen::button(const char* name, const QString& text, const QKeySequence& keys,
                                const QString& tip, void (PlanScreen::*act)()) {
    auto* made = new QPushButton{text};
    made->setObjectName(QLatin1String{name});
    made->setShortcut(keys);
    made->setToolTip(keys.isEmpty() ? tip
                                    : QStringLiteral("%1 (%2)").arg(
                                          tip, keys.toString(QKeySequence::NativeText)));
    connect(made, &QPushButton::clicked, this, act);
    return made;
}

QWidget* PlanScreen::makeImplementBar() {
    m_fromProject = button("from_project", tr("Take from the project"), {},
                           tr("Plans with the implements and hitters that the project has"),
                           &PlanScreen::copyFromProject);
    auto* bar =
        row({m_fromProject,
             button("paste", tr("Paste"), QKeySequence{Qt::CTRL | Qt::SHIFT | Qt::Key_V},
                    tr("Takes a table from the clipboard; its first row names the columns"),
                    &PlanScreen::pasteTable),
             button("import_table", tr("Import…"), QKeySequence{Qt::CTRL | Qt::Key_I},
                    tr("Takes a table from a file (CSV or TSV)"), &PlanScreen::chooseTable),
             button("add_column", tr("Add column…"), QKeySequence{Qt::CTRL | Qt::SHIFT | Qt::Key_C},
                    tr("A column of your own: mass, thickness, price"), &PlanScreen::addColumn),
             button("remove", tr("Remove"), QKeySequence{Qt::CTRL | Qt::Key_Delete},
                    tr("Removes the chosen implements from the plan"), &PlanScreen::removeChosen)},
            tr("Implements"));
    for (auto* each : bar->findChildren<QPushButton*>()) {
        style::setRank(each, style::Rank::Quiet);
        style::holdBack({each}, QString::fromStdString(m_store.readOnlyReason()));
    }
    return bar;
}

QWidget* PlanScreen::makeTables() {
    m_implementView = planTable(m_implements, tr("Implements"));
    m_implementView->setEditTriggers(
        QAbstractItemView::EditTriggers{QAbstractItemView::AllEditTriggers}.setFlag(
            QAbstractItemView::CurrentChanged, false));
    m_dayView = planTable(m_day, tr("Order of the day"));
    m_dayView->setSelectionBehavior(QAbstractItemView::SelectRows);
    m_dayView->setShowGrid(false);
    m_dayView->horizontalHeader()->setSectionResizeMode(DayModel::kImplement, QHeaderView::Stretch);
    m_dayView->verticalHeader()->hide();
    m_dayTitle = new QLabel;
    m_dayTitle->setObjectName(QStringLiteral("day_title"));
    m_dayTitle->setWordWrap(true);
    style::setTextSize(m_dayTitle, style::TextSize::Body, style::Weight::Strong);
    auto* column = new QWidget;
    auto* layout = new QVBoxLayout{column};
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(makeImplementBar());
    layout->addWidget(m_implementView, 3);
    layout->addWidget(m_dayTitle);
    layout->addWidget(m_dayView, 2);
    return column;
}

QWidget* PlanScreen::makeFacts() {
    auto* settings = new SettingsPanel{*m_desk};
    style::holdBack({settings, m_implementView}, QString::fromStdString(m_store.readOnlyReason()));
    auto* both = new QWidget;
    m_facts =
        new QBoxLayout{QBoxLayout::TopToBottom, both};  // until it is known that there is room
    m_facts->setContentsMargins(0, 0, 0, 0);
    m_facts->setSpacing(style::kBetweenPx);
    m_facts->addWidget(settings, 9);
    m_advice = new AdvicePanel{*m_desk};
    m_facts->addWidget(m_advice, 10);
    return new style::ScrolledDown{both};
}

QWidget* PlanScreen::makeHead() {
    m_answer = new QLabel;
    m_answer->setObjectName(QStringLiteral("plan_answer"));
    style::showPlainWords(m_answer);
    style::setTextSize(m_answer, style::TextSize::Head, style::Weight::Strong);
    auto* list = button("print_list", tr("Print the shot list…"), QKeySequence::Print,
                        tr("The order with boxes to tick, as PDF"), &PlanScreen::chooseShotList);
    auto* cards = button(
        "print_cards", tr("Print slate cards…"), QKeySequence{Qt::CTRL | Qt::SHIFT | Qt::Key_P},
        tr("A card to film before the shots of each cell, as PDF"), &PlanScreen::chooseSlateCards);
    auto* tally = button("import_tally", tr("Import frame counts…"), {},
                         tr("Frame counts that were made elsewhere, from a spreadsheet"),
                         &PlanScreen::chooseTally);
    style::setRank(tally, style::Rank::Quiet);
    style::holdBack({tally}, QString::fromStdString(m_store.readOnlyReason()));
    m_needPlan = {list, cards};
    m_meaning =
        new QLabel{tr("Between two implements of one hitter, with a probability of %1 %.")
                       .arg(qRound(100.0 * core::plan::kAdvisedPower))
                       .replace(QLatin1String(" %"), QStringLiteral("\u00a0%"))};  // in one line
    m_meaning->setForegroundRole(QPalette::PlaceholderText);
    style::showPlainWords(m_meaning);
    auto* words = new QWidget;
    auto* column = new QVBoxLayout{words};
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addWidget(m_answer);
    column->addWidget(m_meaning);
    auto* head = new QWidget;
    m_head = new QBoxLayout{QBoxLayout::LeftToRight, head};
    m_head->setContentsMargins(0, 0, 0, 0);
    m_head->addWidget(words, 1);
    m_head->addWidget(row({tally, cards, list}), 0, Qt::AlignRight);
    return head;
}

void PlanScreen::refresh() {
    m_advice->refresh();
    const auto& plan = m_desk->plan();
    const auto schedule = core::plan::scheduleOf(plan);
    for (QPushButton* each : m_needPlan) {
        each->setEnabled(schedule.has_value());
    }
    const auto snapshot = m_desk->snapshot();
    m_meaning->hide();
    const bool isToBeTaken = plan.isEmpty() && !snapshot->implements.isEmpty();
    m_fromProject->setVisible(isToBeTaken);
    using style::Rank;
    style::setRank(m_fromProject, isToBeTaken ? Rank::Primary : Rank::Quiet);
    style::setRank(m_needPlan.front(), isToBeTaken ? Rank::Secondary : Rank::Primary);
    m_dayView->setVisible(schedule.has_value());
    if (!schedule) {
        m_answer->setText(plan.isEmpty() ? tr("Nothing is planned yet")
                                         : tr("The plan is not complete"));
        m_dayTitle->setText(
            plan.isEmpty() ? tr("Type the name of an implement in the empty row, paste a table, or "
                                "import one; then name the hitters.")
                           : QString::fromStdString(schedule.error().message));
        m_day->show({}, {});
        Q_EMIT statusChanged({});
        return;
    }
    QStringList swings;
    for (std::size_t i = 0; i < plan.hitters.size(); ++i) {
        swings << tr("%1: %2").arg(QString::fromStdString(plan.hitters[i]),
                                   QString::fromStdString(core::counted(
                                       schedule.value().swingsPerHitter[i], "swing", "swings")));
    }
    const QString count =
        QString::fromStdString(core::counted(schedule.value().shots, "swing", "swings"));
    const auto smallest = m_advice->advice().smallestStepAsPlannedRpm;
    const bool isTold = smallest && plan.implements.size() > 1;
    m_meaning->setVisible(isTold);
    m_answer->setText(
        isTold
            ? tr("%1 find differences from %2 rpm").arg(count, QString::number(*smallest, 'f', 0))
            : tr("%1 planned").arg(count));
    const QString title =
        tr("Order of the day: %1; %2.")
            .arg(QString::fromStdString(core::counted(schedule.value().shots, "shot", "shots")),
                 swings.join(QStringLiteral(", ")));
    m_dayTitle->setText(title);
    m_day->show(plan, schedule.value());
    Q_EMIT statusChanged(title);
}

void PlanScreen::say(const QString& trouble) {
    m_trouble->setText(trouble);
    m_trouble->setVisible(!trouble.isEmpty());
}

void PlanScreen::takeTable(const QString& text) {
    const auto table = core::plan::implementsFromText(text.toStdString());
    if (!table) {
        say(QString::fromStdString(table.error().message));
        return;
    }
    m_desk->change([&table](auto& plan) { core::plan::addToPlan(plan, table.value()); });
}

void PlanScreen::pasteTable() {
    takeTable(QGuiApplication::clipboard()->text());
}

void PlanScreen::chooseTable() {
    style::askForFile(*this, {tr("Implements"), {}, tableFilter()},
                      [this](const QString& file) { takeTableFile(file); });
}

void PlanScreen::takeTableFile(const QString& file) {
    const auto text = core::intake::readTextFile(std::filesystem::path{file.toStdString()});
    const auto table = text ? core::plan::implementsFromText(text.value())
                            : core::Result<core::plan::ImplementTable>{text.error()};
    if (!table) {
        say(tr("%1: %2").arg(file.section(QLatin1Char('/'), -1),
                             QString::fromStdString(table.error().message)));
        return;
    }
    m_desk->change([&table](auto& plan) { core::plan::addToPlan(plan, table.value()); });
    const auto encoding = core::encodingName(table.value().encoding);
    Q_EMIT statusChanged(
        tr("%1 was read as %2.")
            .arg(file.section(QLatin1Char('/'), -1),
                 QString::fromUtf8(encoding.data(), static_cast<qsizetype>(encoding.size()))));
}

void PlanScreen::addColumn() {
    style::askForText(
        *this, {tr("Add a column"), tr("What the column is called")}, [this](const QString& name) {
            m_desk->change(
                [&name](auto& plan) { plan.attributeNames.push_back(name.toStdString()); });
        });
}

void PlanScreen::removeChosen() {
    std::vector<std::size_t> rows;
    for (const auto& index : m_implementView->selectionModel()->selectedIndexes()) {
        const auto row = static_cast<std::size_t>(index.row());
        if (std::find(rows.begin(), rows.end(), row) == rows.end()) {
            rows.push_back(row);
        }
    }
    m_implements->removeImplements(std::move(rows));
}

void PlanScreen::copyFromProject() {
    m_desk->change([this](core::plan::Plan& plan) {
        auto known = core::intake::planOfProject(*m_desk->snapshot());
        plan.attributeNames = std::move(known.attributeNames);
        plan.implements = std::move(known.implements);
        plan.hitters = std::move(known.hitters);
    });
}

void PlanScreen::chooseShotList() {
    style::askWhereToSave(
        *this, {tr("Print the shot list"), QStringLiteral("shot-list.pdf"), tr("PDF (*.pdf)")},
        [this](const QString& file) { printShotList(file); });
}

void PlanScreen::chooseSlateCards() {
    style::askWhereToSave(
        *this, {tr("Print slate cards"), QStringLiteral("slate-cards.pdf"), tr("PDF (*.pdf)")},
        [this](const QString& file) { printSlateCards(file); });
}

void PlanScreen::printShotList(const QString& file) {
    write(file, core::plan::shotListPdf(m_desk->plan()));
}

void PlanScreen::printSlateCards(const QString& file) {
    write(file, core::plan::slateCardsPdf(m_desk->plan()));
}

void PlanScreen::write(const QString& file, const core::Result<std::string>& pdf) {
    if (!pdf) {
        say(QString::fromStdString(pdf.error().message));
        return;
    }
    // Whoever chose the file was asked about one that is there.
    const std::filesystem::path target{file.toStdString()};
    const auto done =
        core::writeFile(target, pdf.value(),
                        {core::Existing::Overwrite,
                         core::project::filesInUse(m_desk->store().file(), *m_desk->snapshot())});
    if (!done) {
        say(QString::fromStdString(done.error().message));
        return;
    }
    say({});
    Q_EMIT statusChanged(tr("Wrote %1").arg(file));
}

}  // namespace ui::plan
