// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/window/window.h"

#include <GLFW/glfw3.h>
#include <backends/imgui_impl_glfw.h>
#include <backends/imgui_impl_opengl3.h>
#include <fmt/format.h>
#include <imgui.h>

#include <algorithm>
#include <atomic>
#include <cstdio>
#include <memory>

#include "base/failure.h"
#include "desk/model/desk.h"
#include "desk/window/gl_textures.h"
#include "desk/parts/keys.h"
#include "desk/parts/parts.h"
#include "desk/window/shell.h"
#include "desk/window/shoot.h"

namespace ringfall::desk {
namespace {

constexpr int kNoDisplay = 3;
// ImGui needs a frame to see an input, one to answer and one to settle.
constexpr int kFramesAnEvent = 3;
constexpr double kBusyWait_s = 0.07;  // a meter that moves
constexpr double kCaretWait_s = 0.4;
constexpr double kNoticeWait_s = 1.0;
constexpr double kIdleWait_s = 30.0;

/// What GLFW's callbacks reach.
struct Happened {
  int frames = kFramesAnEvent;
  std::vector<std::string> dropped;
};

Happened& happened(GLFWwindow* window) { return *static_cast<Happened*>(glfwGetWindowUserPointer(window)); }
void wake_up(GLFWwindow* window) { happened(window).frames = kFramesAnEvent; }

void listen_to(GLFWwindow* window) {
  glfwSetCursorPosCallback(window, [](GLFWwindow* w, double, double) { wake_up(w); });
  glfwSetMouseButtonCallback(window, [](GLFWwindow* w, int, int, int) { wake_up(w); });
  glfwSetScrollCallback(window, [](GLFWwindow* w, double, double) { wake_up(w); });
  glfwSetKeyCallback(window, [](GLFWwindow* w, int, int, int, int) { wake_up(w); });
  glfwSetCharCallback(window, [](GLFWwindow* w, unsigned) { wake_up(w); });
  glfwSetWindowFocusCallback(window, [](GLFWwindow* w, int) { wake_up(w); });
  glfwSetWindowRefreshCallback(window, wake_up);
  glfwSetFramebufferSizeCallback(window, [](GLFWwindow* w, int, int) { wake_up(w); });
  glfwSetWindowContentScaleCallback(window, [](GLFWwindow* w, float, float) { wake_up(w); });
  glfwSetDropCallback(window, [](GLFWwindow* w, int count, const char** paths) {
    for (int k = 0; k < count; ++k) happened(w).dropped.emplace_back(paths[k]);
    wake_up(w);
  });
}

/// GLFW from start to end, and its last complaint.
struct Glfw {
  Glfw() { ready = glfwInit() == GLFW_TRUE; }
  ~Glfw() { glfwTerminate(); }
  Glfw(const Glfw&) = delete;
  Glfw& operator=(const Glfw&) = delete;
  bool ready = false;
};

std::string last_glfw_words() {
  const char* words = nullptr;
  glfwGetError(&words);
  return words != nullptr ? words : "no reason given";
}

struct DropWindow {
  void operator()(GLFWwindow* window) const { glfwDestroyWindow(window); }
};

/// ImGui with its two back ends.
struct Ui {
  explicit Ui(GLFWwindow* window) {
    IMGUI_CHECKVERSION();
    ImGui::CreateContext();
    ImGuiIO& io = ImGui::GetIO();
    io.IniFilename = nullptr;
    io.ConfigFlags |= ImGuiConfigFlags_NavEnableKeyboard;
    ImGui_ImplGlfw_InitForOpenGL(window, true);  // hands on to our callbacks
    ImGui_ImplOpenGL3_Init("#version 150");
    map_keys(io);
  }
  ~Ui() {
    ImGui_ImplOpenGL3_Shutdown();
    ImGui_ImplGlfw_Shutdown();
    ImGui::DestroyContext();
  }
  Ui(const Ui&) = delete;
  Ui& operator=(const Ui&) = delete;
};

float screen_scale(GLFWwindow* window) {
  float x = 1.0F;
  float y = 1.0F;
  glfwGetWindowContentScale(window, &x, &y);
  return std::clamp(x, 0.5F, 4.0F);
}

/// Bakes type and colours anew when scale or theme changed.
void refresh(Stage& stage, const FontFiles& files, const Preferences& preferences, float scale) {
  const float wanted = scale * static_cast<float>(preferences.text_scale);
  const bool other_size = stage.fonts.text == nullptr || std::abs(wanted - stage.scale) > 0.01F;
  if (other_size) {
    stage.scale = wanted;
    ImGui::GetIO().Fonts->Clear();
    stage.fonts = load_fonts(*ImGui::GetIO().Fonts, files, wanted);
    ImGui_ImplOpenGL3_DestroyFontsTexture();
    ImGui_ImplOpenGL3_CreateFontsTexture();
  }
  if (other_size || stage.palette.theme != preferences.theme) {
    stage.palette = palette_of(preferences.theme);
    dress(stage);
  }
}

void draw_frame(GLFWwindow* window, Desk& desk, Shell& shell, const Stage& stage) {
  ImGui_ImplOpenGL3_NewFrame();
  ImGui_ImplGlfw_NewFrame();
  ImGui::NewFrame();
  shell.draw(desk, stage);
  ImGui::Render();
  int width = 0;
  int height = 0;
  glfwGetFramebufferSize(window, &width, &height);
  glViewport(0, 0, width, height);
  glClear(GL_COLOR_BUFFER_BIT);
  ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
  glfwSwapBuffers(window);
}

/// How long to sleep when nothing happens.
double patience_s(const Desk& desk) {
  if (desk.restless()) return kBusyWait_s;
  if (!desk.notices.empty()) return kNoticeWait_s;
  return ImGui::GetIO().WantTextInput ? kCaretWait_s : kIdleWait_s;
}

}  // namespace

int serve_window(const WindowRequest& request) {
  const Glfw glfw;
  if (!glfw.ready) {
    fmt::print(stderr, "ringfall-desk: there is no display to open a window on ({}); use the ringfall command in a terminal instead\n",
               last_glfw_words());
    return kNoDisplay;
  }
  const std::string folder = config_folder();
  Preferences kept = load_preferences(folder);
  if (request.width > 0) kept.width = request.width;
  if (request.height > 0) kept.height = request.height;
  glfwWindowHint(GLFW_CONTEXT_VERSION_MAJOR, 3);
  glfwWindowHint(GLFW_CONTEXT_VERSION_MINOR, 2);
  glfwWindowHint(GLFW_OPENGL_PROFILE, GLFW_OPENGL_CORE_PROFILE);
  glfwWindowHint(GLFW_OPENGL_FORWARD_COMPAT, GLFW_TRUE);
  glfwWindowHintString(GLFW_X11_CLASS_NAME, "ringfall-desk");
  Happened what;
  const std::unique_ptr<GLFWwindow, DropWindow> window(glfwCreateWindow(kept.width, kept.height, "Ringfall", nullptr, nullptr));
  if (!window) {
    fmt::print(stderr, "ringfall-desk: no window with OpenGL 3.2 can be opened ({}); use the ringfall command in a terminal instead\n",
               last_glfw_words());
    return kNoDisplay;
  }
  glfwSetWindowSizeLimits(window.get(), 760, 520, GLFW_DONT_CARE, GLFW_DONT_CARE);
  glfwSetWindowUserPointer(window.get(), &what);
  glfwMakeContextCurrent(window.get());
  glfwSwapInterval(1);
  listen_to(window.get());
  const Ui ui(window.get());
  const FontFiles files = find_fonts();
  GlTextures textures;
  TabOrder tabs;
  Stage stage;
  stage.textures = &textures;
  stage.tabs = &tabs;
  Desk desk(kept, [] { glfwPostEmptyEvent(); }, std::make_shared<ComputerSound>());
  Shell shell;
  if (request.logbook && request.shoot_folder) desk.make_demo(*request.logbook);  // or opens what is there
  else if (request.logbook) desk.open(*request.logbook);
  const auto frame = [&] {
    refresh(stage, files, desk.preferences, screen_scale(window.get()));
    draw_frame(window.get(), desk, shell, stage);
  };
  if (request.shoot_folder) {
    glfwSetCursorPos(window.get(), 2.0, 2.0);  // where it points at nothing
    shoot_places(desk, frame, *request.shoot_folder, [&](const std::string& path) {
      int width = 0;
      int height = 0;
      glfwGetFramebufferSize(window.get(), &width, &height);
      write_screen(path.c_str(), width, height);
    });
    return 0;
  }
  while (glfwWindowShouldClose(window.get()) == GLFW_FALSE) {
    if (what.frames > 0) {
      glfwPollEvents();
      --what.frames;
    } else {
      const bool restless = desk.restless() || ImGui::GetIO().WantTextInput || !desk.notices.empty();
      glfwWaitEventsTimeout(patience_s(desk));
      if (restless) what.frames = std::max(what.frames, 1);
    }
    if (desk.tick()) what.frames = kFramesAnEvent;
    for (const std::string& path : what.dropped) desk.open(path);
    what.dropped.clear();
    if (what.frames > 0) frame();
  }
  desk.slow.cancel_all();
  desk.stop_listening();
  desk.settle();
  glfwGetWindowSize(window.get(), &desk.preferences.width, &desk.preferences.height);
  try {
    save_preferences(desk.preferences, folder);
  } catch (const Failure& failure) {
    fmt::print(stderr, "ringfall-desk: {}\n", failure.what());
  }
  return 0;
}

}  // namespace ringfall::desk
