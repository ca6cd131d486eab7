// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "network/convolutions.h"

#include <fmt/format.h>
#include <opencv2/dnn.hpp>
#include <opencv2/dnn/all_layers.hpp>

#include <algorithm>
#include <map>
#include <stdexcept>
#include <string>

namespace swarfbook {
namespace {

using Operation = ConvolutionNetwork::Operation;
using Tensor = ConvolutionNetwork::Tensor;

/// The output of a layer of the file: a tensor, or one that the next layer sees doubled in size.
struct Given {
    std::size_t tensor = 0;
    bool doubled = false;
};

class NetworkReader {
  public:
    NetworkReader(const std::filesystem::path& file, int channels)
        : net_(cv::dnn::readNetFromONNX(file.string())) {
        network_.tensors.push_back({channels, 1, 0});
        given_[0] = {};
        for (const std::string& name : net_.getLayerNames())
            for (const int input : inputsOf(net_.getLayerId(name)))
                ++uses_[input];
    }

    ConvolutionNetwork read() {
        for (const std::string& name : net_.getLayerNames())
            readLayer(net_.getLayerId(name));
        if (network_.operations.empty())
            throw std::runtime_error("it has no convolution");
        return std::move(network_);
    }

  private:
    std::vector<int> inputsOf(int id) {
        std::vector<int> ids;
        for (const auto& layer : net_.getLayerInputs(id))
            ids.push_back(net_.getLayerId(layer->name));
        return ids;
    }

    void readLayer(int id) {
        const auto layer = net_.getLayer(id);
        const auto inputs = inputsOf(id);
        const bool isSum = layer->type == "Eltwise";
        if (inputs.size() != (isSum ? 2 : 1))
            throw std::runtime_error(fmt::format("layer {} takes other inputs", layer->name));
        if (layer->type == "Convolution")
            given_[id] = readConvolution(*layer, given_.at(inputs[0]));
        else if (layer->type == "ReLU")
            given_[id] = rectify(inputs[0]);
        else if (layer->type == "Resize")
            given_[id] = {given_.at(inputs[0]).tensor, true};
        else if (layer->type == "Identity")
            given_[id] = given_.at(inputs[0]);
        else if (isSum)
            given_[id] = sumOf(inputs[0], inputs[1]);
        else
            throw std::runtime_error(fmt::format("it has a layer of the kind {}", layer->type));
    }

    Given addOperation(Operation operation, const Tensor& result) {
        operation.to = network_.tensors.size();
        network_.tensors.push_back(result);
        network_.operations.push_back(std::move(operation));
        return {network_.tensors.size() - 1, false};
    }

    Given readConvolution(const cv::dnn::Layer& layer, const Given& from) {
        const auto* shape = dynamic_cast<const cv::dnn::BaseConvolutionLayer*>(&layer);
        const Tensor& in = network_.tensors[from.tensor];
        if (shape == nullptr || layer.blobs.size() != 2 || from.doubled ||
            layer.blobs[0].dims != 4 || layer.blobs[0].size[1] != in.channels ||
            layer.blobs[0].size[2] != layer.blobs[0].size[3])
            throw std::runtime_error(
                fmt::format("layer {} is not a plain convolution", layer.name));
        Operation operation;
        operation.from = from.tensor;
        operation.weights = layer.blobs[0].clone();
        operation.bias = layer.blobs[1].clone();
        operation.kernel = layer.blobs[0].size[2];
        operation.stride = static_cast<int>(shape->strides.at(0));
        operation.dilation = static_cast<int>(shape->dilations.at(0));
        const int half = operation.dilation * (operation.kernel - 1) / 2;
        if (operation.kernel % 2 == 0 || operation.stride > 2 ||
            shape->pads_begin != std::vector<std::size_t>(2, static_cast<std::size_t>(half)))
            throw std::runtime_error(
                fmt::format("layer {} neither keeps the size nor halves it", layer.name));
        const Tensor result{layer.blobs[0].size[0], in.cell * operation.stride,
                            in.reach + half * in.cell};
        return addOperation(std::move(operation), result);
    }

    /// The convolution that was just read, if nothing else uses its output.
    Operation& onlyUsed(int id) {
        if (network_.operations.empty() || uses_[id] != 1 ||
            given_.at(id).tensor != network_.operations.back().to)
            throw std::runtime_error("its layers stand in another order");
        return network_.operations.back();
    }

    Given rectify(int id) {
        Operation& convolution = onlyUsed(id);
        bool& rectified = convolution.adds ? convolution.sumRectified : convolution.rectified;
        if (rectified || convolution.weights.empty() || given_.at(id).doubled)
            throw std::runtime_error("a rectifier does not follow a convolution");
        rectified = true;
        return given_.at(id);
    }

    Given sumOf(int first, int second) {
        if (given_.at(first).doubled)
            std::swap(first, second);
        const Given one = given_.at(first), other = given_.at(second);
        const Tensor &a = network_.tensors[one.tensor], &b = network_.tensors[other.tensor];
        if (one.doubled || a.channels != b.channels || a.cell * (other.doubled ? 2 : 1) != b.cell)
            throw std::runtime_error("it adds what differs in size");
        const int reach = std::max(a.reach, b.reach + (other.doubled ? b.cell : 0));
        if (other.doubled) {
            Operation sum;
            sum.from = other.tensor;
            sum.plus = one.tensor;
            sum.adds = true;
            return addOperation(std::move(sum), {a.channels, a.cell, reach});
        }
        Operation& convolution = onlyUsed(second);
        if (convolution.adds || convolution.weights.empty())
            throw std::runtime_error("a sum does not take a convolution");
        convolution.plus = one.tensor;
        convolution.adds = true;
        network_.tensors[convolution.to].reach = reach;
        return other;
    }

    cv::dnn::Net net_;
    ConvolutionNetwork network_;
    std::map<int, Given> given_;
    std::map<int, int> uses_;
};

} // namespace

ConvolutionNetwork ConvolutionNetwork::read(const std::filesystem::path& file, int channels) {
    return NetworkReader(file, channels).read();
}

int ConvolutionNetwork::coarsestCell() const {
    return std::max_element(tensors.begin(), tensors.end(),
                            [](const Tensor& a, const Tensor& b) { return a.cell < b.cell; })
        ->cell;
}

} // namespace swarfbook
