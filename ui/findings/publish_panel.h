#pragma once

#include <QWidget>

#include "core/project/store.h"
#include "ui/bridge/job_runner.h"

class QCheckBox;
class QLabel;
class QPushButton;

namespace ui::findings {

/// Writes the findings for others into a folder, in the background. The choices and the folder that
/// was asked for last are kept for the next time. Confined.
class PublishPanel : public QWidget {
    Q_OBJECT

public:
    PublishPanel(core::project::Store& store, bridge::JobRunner& jobs, QWidget* parent = nullptr);

    /// Asks for a folder.
    void choose();
    /// Publishes into a folder with the options shown. Files of others are left alone.
    void publishTo(const QString& folder);

Q_SIGNALS:
    /// What happened, in a sentence or two.
    void said(const QString& text);

private:
    void say(const QString& text);

    core::project::Store& m_store;
    bridge::JobRunner& m_jobs;
    QCheckBox* m_blind;
    QCheckBox* m_films;
    QPushButton* m_publish;
    QLabel* m_words;
};

}  // namespace ui::findings
