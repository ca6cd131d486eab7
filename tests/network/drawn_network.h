// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <opencv2/core.hpp>

#include <cmath>
#include <cstdint>
#include <filesystem>
#include <fstream>
#include <string>
#include <utility>
#include <vector>

/// Writes ONNX files of networks with random weights, so that tests need no file of a learnt one.
/// Source: the field numbers of onnx.proto, ONNX 1.12 (opset 11).
namespace swarfbook::test {

/// A message of Google's protocol buffers: fields one after the other.
class ProtocolMessage {
  public:
    ProtocolMessage& number(std::uint64_t field, std::uint64_t value) {
        varint(field << 3U);
        varint(value);
        return *this;
    }
    ProtocolMessage& text(std::uint64_t field, const std::string& bytes) {
        varint((field << 3U) | 2U);
        varint(bytes.size());
        bytes_ += bytes;
        return *this;
    }
    ProtocolMessage& message(std::uint64_t field, const ProtocolMessage& other) {
        return text(field, other.bytes_);
    }
    [[nodiscard]] const std::string& bytes() const { return bytes_; }

  private:
    void varint(std::uint64_t value) {
        for (; value >= 128; value >>= 7U)
            bytes_ += static_cast<char>((value & 127U) | 128U);
        bytes_ += static_cast<char>(value);
    }
    std::string bytes_;
};

struct DrawnConvolution {
    int answers = 1, channels = 1, kernel = 3, stride = 1, dilation = 1;
};

/// A network being built; every step returns the name of its output.
class DrawnNetwork {
  public:
    explicit DrawnNetwork(int channels) : channels_(channels) {}

    /// With random weights.
    std::string convolution(const std::string& from, const DrawnConvolution& c) {
        const int values = c.channels * c.kernel * c.kernel;
        std::vector<float> weights(static_cast<std::size_t>(c.answers * values));
        std::vector<float> bias(static_cast<std::size_t>(c.answers));
        for (float& one : weights)
            one = static_cast<float>(random_.gaussian(std::sqrt(2.0 / values)));
        for (float& one : bias)
            one = static_cast<float>(random_.gaussian(0.1));
        return convolution(from, c, {weights, bias});
    }
    /// @param numbers  weights (answers x channels x kernel x kernel) and one bias for each answer
    std::string
    convolution(const std::string& from, const DrawnConvolution& c,
                const std::pair<const std::vector<float>&, const std::vector<float>&>& numbers) {
        const std::string name = next();
        constant(name + "w", {c.answers, c.channels, c.kernel, c.kernel}, numbers.first);
        constant(name + "b", {c.answers}, numbers.second);
        const auto both = [](int n) { return std::vector<int>{n, n}; };
        const int pad = c.dilation * (c.kernel - 1) / 2;
        return node("Conv", {from, name + "w", name + "b"}, name,
                    {list("dilations", both(c.dilation)), list("kernel_shape", both(c.kernel)),
                     list("pads", {pad, pad, pad, pad}), list("strides", both(c.stride))});
    }
    std::string rectified(const std::string& from) { return node("Relu", {from}, next(), {}); }
    std::string sum(const std::string& one, const std::string& other) {
        return node("Add", {one, other}, next(), {});
    }
    std::string doubled(const std::string& from) {
        const std::string name = next();
        const std::vector<float> twice{1.0F, 1.0F, 2.0F, 2.0F};
        constant(name + "s", {4}, twice);
        return node("Resize", {from, "", name + "s"}, name,
                    {word("coordinate_transformation_mode", "asymmetric"), word("mode", "nearest"),
                     word("nearest_mode", "floor")});
    }

    /// @param answer  the name of the network's output
    void write(const std::filesystem::path& file, const std::string& answer) const {
        ProtocolMessage graph = graph_, model, opset;
        graph.text(2, "drawn").message(11, tensorInfo("see", channels_));
        graph.message(12, tensorInfo(answer, 1));
        opset.text(1, "").number(2, 11);
        model.number(1, 6).message(7, graph).message(8, opset);
        std::ofstream(file, std::ios::binary) << model.bytes();
    }

  private:
    std::string next() { return "n" + std::to_string(++made_); }

    static ProtocolMessage list(const std::string& name, const std::vector<int>& values) {
        ProtocolMessage attribute;
        attribute.text(1, name);
        for (const int value : values)
            attribute.number(8, static_cast<std::uint64_t>(value));
        return attribute.number(20, 7);
    }
    static ProtocolMessage word(const std::string& name, const std::string& value) {
        return ProtocolMessage().text(1, name).text(4, value).number(20, 3);
    }
    static ProtocolMessage tensorInfo(const std::string& name, int channels) {
        ProtocolMessage shape, tensor, type;
        for (const int size : {1, channels, 64, 64})
            shape.message(1, ProtocolMessage().number(1, static_cast<std::uint64_t>(size)));
        tensor.number(1, 1).message(2, shape);
        type.message(1, tensor);
        return ProtocolMessage().text(1, name).message(2, type);
    }
    std::string node(const std::string& kind, const std::vector<std::string>& inputs,
                     const std::string& output, const std::vector<ProtocolMessage>& attributes) {
        ProtocolMessage node;
        for (const std::string& input : inputs)
            node.text(1, input);
        node.text(2, output).text(3, output).text(4, kind);
        for (const ProtocolMessage& attribute : attributes)
            node.message(5, attribute);
        graph_.message(1, node);
        return output;
    }
    void constant(const std::string& name, const std::vector<int>& size,
                  const std::vector<float>& numbers) {
        ProtocolMessage tensor;
        for (const int n : size)
            tensor.number(1, static_cast<std::uint64_t>(n));
        tensor.number(2, 1).text(8, name);
        tensor.text(9, {reinterpret_cast<const char*>(numbers.data()),
                        numbers.size() * sizeof(float)}); // little-endian, as this machine's
        graph_.message(5, tensor);
    }
    int channels_, made_ = 0;
    cv::RNG random_{42};
    ProtocolMessage graph_;
};

/// A network of the form in models/make/network/model.py, with few channels; 24 of them are not a
/// multiple of 16 lanes.
inline void writeSmallNetwork(const std::filesystem::path& file) {
    DrawnNetwork net(3);
    const auto block = [&](const std::string& seen, int channels, int reach) {
        const auto far = net.rectified(net.convolution(seen, {channels, channels, 3, 1, reach}));
        return net.sum(seen, net.convolution(far, {channels, channels}));
    };
    const auto half = net.rectified(net.convolution("see", {8, 3, 5, 2}));
    const auto first = net.sum(half, net.rectified(net.convolution(half, {8, 8})));
    const auto second = block(net.rectified(net.convolution(first, {24, 8, 3, 2})), 24, 1);
    const auto third = block(net.rectified(net.convolution(second, {16, 24, 3, 2})), 16, 2);
    const auto fourth = block(net.rectified(net.convolution(third, {32, 16, 3, 2})), 32, 4);
    auto answer = block(net.sum(third, net.doubled(net.convolution(fourth, {16, 32, 1}))), 16, 1);
    answer = block(net.sum(second, net.doubled(net.convolution(answer, {24, 16, 1}))), 24, 1);
    answer = net.sum(first, net.doubled(net.convolution(answer, {8, 24, 1})));
    answer = net.rectified(net.sum(answer, net.rectified(net.convolution(answer, {8, 8}))));
    net.write(file, net.convolution(answer, {13, 8}));
}

} // namespace swarfbook::test
