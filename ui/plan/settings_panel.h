#pragma once

#include <QWidget>

class QComboBox;
class QFormLayout;
class QLineEdit;
class QPushButton;
class QSpinBox;

namespace ui::plan {

class PlanDesk;

/// Everything of a plan but its implements: hitters, shots, order, control, rests, ball and camera.
/// Each field is stored when it is left. Confined.
class SettingsPanel : public QWidget {
    Q_OBJECT

public:
    explicit SettingsPanel(PlanDesk& desk, QWidget* parent = nullptr);

private:
    void makeShots();
    void makeBall();
    void makeCamera();
    void connectFields();
    void refresh();
    void takeHitters();
    void takeStep();
    void takeSeed();
    QSpinBox* number(const char* name, int most, const QString& tip);
    QLineEdit* line(const char* name, const QString& placeholder, const QString& tip);
    QFormLayout* group(const QString& title);

    PlanDesk& m_desk;
    QLineEdit* m_session{};
    QLineEdit* m_hitters{};
    QSpinBox* m_shotsPerCell{};
    QSpinBox* m_shotsPerVisit{};
    QComboBox* m_order{};
    QLineEdit* m_seed{};
    QPushButton* m_newSeed{};
    QComboBox* m_control{};
    QSpinBox* m_controlShots{};
    QSpinBox* m_swings{};
    QSpinBox* m_rest{};
    QLineEdit* m_ball{};
    QComboBox* m_marking{};
    QLineEdit* m_captureRate{};
    QLineEdit* m_exposure{};
    QLineEdit* m_expected{};
    QLineEdit* m_scatter{};
    QLineEdit* m_step{};
};

}  // namespace ui::plan
