// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/models_on_demand.h"
#include "base/errors.h"
#include "files/temporary_folder.h"

#include <catch2/catch.hpp>

#include <thread>
#include <vector>

using namespace swarfbook;
namespace fs = std::filesystem;

namespace {

/// A folder with the models of the project.
struct ModelFolder {
    test::TemporaryFolder own;
    fs::path models = own.path() / "models";
    ModelFolder() { fs::copy(fs::path(SWARFBOOK_SOURCE_DIR) / "models", models); }
};

} // namespace

TEST_CASE("Models are loaded when they are asked for, once for all copies", "[assess]") {
    const ModelFolder folder;
    const ModelsOnDemand models(folder.models), copy = models;
    std::vector<const DebrisModels*> seen(4);
    std::vector<std::thread> threads;
    for (std::size_t i = 0; i < seen.size(); ++i)
        threads.emplace_back([&, i] { seen[i] = &(i % 2 == 0 ? models : copy).get(); });
    for (std::thread& one : threads)
        one.join();
    fs::remove_all(folder.models); // they stay loaded
    for (const DebrisModels* one : seen)
        CHECK(one == &models.get());
}

TEST_CASE("Models are not touched before they are asked for", "[assess]") {
    const test::TemporaryFolder folder;
    const ModelsOnDemand models(folder.path() / "models");
    fs::copy(fs::path(SWARFBOOK_SOURCE_DIR) / "models", folder.path() / "models");
    CHECK_NOTHROW(models.get());
}

TEST_CASE("Missing models are reported whenever they are asked for", "[assess]") {
    const ModelsOnDemand models("/nowhere/models");
    models.startLoading();
    CHECK_THROWS_AS(models.get(), ToolError);
    CHECK_THROWS_AS(models.get(), ToolError);
}
