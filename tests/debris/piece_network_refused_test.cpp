// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "debris/piece_network.h"
#include "files/temporary_folder.h"
#include "network/drawn_network.h"

#include <catch2/catch.hpp>

#include <fstream>
#include <functional>
#include <string>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

PieceNetwork readAsDrawn(const std::function<std::string(DrawnNetwork&)>& drawUp) {
    const TemporaryFolder folder;
    DrawnNetwork net(3);
    net.write(folder / "drawn.onnx", drawUp(net));
    return PieceNetwork::load(folder / "drawn.onnx", Precision::float32);
}

} // namespace

TEST_CASE("A missing, damaged or different piece network is refused", "[debris]") {
    const TemporaryFolder folder;
    CHECK_THROWS_WITH(PieceNetwork::load(folder / "none.onnx"), Catch::Contains("is missing"));
    const auto file = folder / "damaged.onnx";
    std::ofstream(file) << "not a network";
    CHECK_THROWS_AS(PieceNetwork::load(file), ToolError);
    CHECK_THROWS_AS(readAsDrawn([](DrawnNetwork& net) { // other answers
                        return net.convolution("see", {8, 3, 5, 2});
                    }),
                    ToolError);
    CHECK_THROWS_AS(readAsDrawn([](DrawnNetwork& net) { // one answer for each pixel
                        return net.convolution("see", {13, 3, 5, 1});
                    }),
                    ToolError);
    CHECK_THROWS_AS(
        readAsDrawn([](DrawnNetwork& net) { // cells of 32 px do not fit into the context
            std::string seen = net.convolution("see", {8, 3, 5, 2});
            const std::string half = seen;
            for (int i = 0; i < 4; ++i)
                seen = net.convolution(seen, {8, 8, 3, 2});
            return net.convolution(half, {13, 8});
        }),
        ToolError);
}
