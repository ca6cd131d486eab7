// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "network/convolutions.h"

#include <algorithm>
#include <dnnl.hpp>
#include <functional>
#include <stdexcept>

/// Of the OpenMP standard: how many threads the calling thread's next regions have. Declared here
/// since omp.h belongs to a compiler, while oneDNN works with GNU's library whatever compiles this.
extern "C" void omp_set_num_threads(int threads);

namespace swarfbook {
namespace {

using Operation = ConvolutionNetwork::Operation;
using dnnl::memory;

float* numbersOf(const memory& tensor) {
    return static_cast<float*>(tensor.get_data_handle());
}

/// Each value of `small` 2 x 2 times, plus `large`.
template <int lanes> void addDoubled(const memory& small, const memory& large, const memory& sum) {
    const auto dims = large.get_desc().dims();
    const auto width = static_cast<std::size_t>(dims[3]),
               height = static_cast<std::size_t>(dims[2]);
    const auto blocks = static_cast<std::size_t>((dims[1] + lanes - 1) / lanes);
    for (std::size_t row = 0; row < blocks * height; ++row) {
        const std::size_t block = row / height, y = row % height;
        const float* s = numbersOf(small) + (block * (height / 2) + y / 2) * (width / 2) * lanes;
        const float* l = numbersOf(large) + row * width * lanes;
        float* out = numbersOf(sum) + row * width * lanes;
        for (std::size_t x = 0; x < width / 2; ++x, s += lanes)
            for (int k = 0; k < 2 * lanes; ++k, ++l, ++out)
                *out = *l + s[k % lanes];
    }
}

} // namespace

int lanesOfProcessor() {
    const auto has = static_cast<unsigned>(dnnl::get_effective_cpu_isa());
    const auto wanted = static_cast<unsigned>(dnnl::cpu_isa::avx512_core); // a set of bits
    return (has & wanted) == wanted ? 16 : 8;
}

struct ConvolutionRunner::Parts {
    int lanes = 8; ///< channels that lie side by side
    dnnl::engine engine{dnnl::engine::kind::cpu, 0};
    dnnl::stream stream{engine};
    std::vector<memory> tensors;
    std::vector<memory> margins; ///< copies with zeros around, whose middles are written
    std::vector<std::function<void()>> steps;

    [[nodiscard]] memory::desc inLanes(int channels, int height, int width) const {
        return {{1, channels, height, width},
                memory::data_type::f32,
                lanes == 16 ? memory::format_tag::nChw16c : memory::format_tag::nChw8c};
    }

    void execute(const dnnl::primitive& what, std::unordered_map<int, memory> on) {
        steps.emplace_back([this, what, on = std::move(on)] { what.execute(stream, on); });
    }

    /// A copy with zeros around it: oneDNN has no fast convolution that pads by more than three.
    memory withMargin(const memory& tensor, int margin) {
        constexpr int widestPadding = 3;
        if (margin <= widestPadding)
            return tensor;
        const auto dims = tensor.get_desc().dims();
        const auto descriptor =
            inLanes(static_cast<int>(dims[1]), static_cast<int>(dims[2]) + 2 * margin,
                    static_cast<int>(dims[3]) + 2 * margin);
        memory padded(descriptor, engine);
        std::fill_n(numbersOf(padded), descriptor.get_size() / sizeof(float), 0.0F);
        const memory middle(descriptor.submemory_desc(dims, {0, 0, margin, margin}), engine,
                            padded.get_data_handle());
        const dnnl::reorder::primitive_desc copy(engine, tensor.get_desc(), engine,
                                                 middle.get_desc());
        execute(dnnl::reorder(copy), {{DNNL_ARG_FROM, tensor}, {DNNL_ARG_TO, middle}});
        margins.push_back(padded);
        return padded;
    }

    memory ordered(const cv::Mat& numbers, const memory::desc& plain, const memory::desc& wanted) {
        cv::Mat own = numbers.clone();
        memory from(plain, engine, own.data), to(wanted, engine);
        dnnl::reorder(from, to).execute(stream, from, to);
        stream.wait();
        return to;
    }

    void addDoubling(const Operation& op) {
        const auto add = lanes == 16 ? addDoubled<16> : addDoubled<8>;
        steps.emplace_back([add, small = tensors[op.from], large = tensors[op.plus],
                            sum = tensors[op.to]] { add(small, large, sum); });
    }

    void addConvolution(const Operation& op) {
        const int half = op.dilation * (op.kernel - 1) / 2;
        const memory in = withMargin(tensors[op.from], half);
        const bool hasMargin = in != tensors[op.from];
        const memory::dim before = hasMargin ? 0 : half;
        const memory::dim after = hasMargin ? 0 : half - (op.stride - 1);
        const int answers = op.weights.size[0];
        const memory::desc weights({answers, op.weights.size[1], op.kernel, op.kernel},
                                   memory::data_type::f32, memory::format_tag::oihw);
        const memory::desc bias({answers}, memory::data_type::f32, memory::format_tag::a);
        memory::desc anyWeights(weights.dims(), memory::data_type::f32, memory::format_tag::any);
        dnnl::post_ops then;
        if (op.rectified)
            then.append_eltwise(1.0F, dnnl::algorithm::eltwise_relu, 0.0F, 0.0F);
        if (op.adds)
            then.append_binary(dnnl::algorithm::binary_add, tensors[op.plus].get_desc());
        dnnl::primitive_attr attributes;
        attributes.set_post_ops(then);
        const memory::dims strides(2, op.stride), dilates(2, op.dilation - 1);
        const dnnl::convolution_forward::desc what(
            dnnl::prop_kind::forward_inference, dnnl::algorithm::convolution_direct, in.get_desc(),
            anyWeights, bias, tensors[op.to].get_desc(), strides, dilates, {before, before},
            {after, after});
        const dnnl::convolution_forward::primitive_desc how(what, attributes, engine);
        std::unordered_map<int, memory> on{
            {DNNL_ARG_SRC, in},
            {DNNL_ARG_WEIGHTS, ordered(op.weights, weights, how.weights_desc())},
            {DNNL_ARG_BIAS, ordered(op.bias, bias, bias)},
            {DNNL_ARG_DST, tensors[op.to]}};
        if (op.adds)
            on[DNNL_ARG_ATTR_MULTIPLE_POST_OP(op.rectified ? 1 : 0) | DNNL_ARG_SRC_1] =
                tensors[op.plus];
        execute(dnnl::convolution_forward(how), std::move(on));
    }
};

ConvolutionRunner::ConvolutionRunner(const ConvolutionNetwork& network, cv::Size sheet, int lanes)
    : parts_(std::make_unique<Parts>()) {
    if (lanes != 8 && lanes != 16)
        throw std::logic_error("a convolution runs on 8 lanes or on 16");
    parts_->lanes = lanes;
    omp_set_num_threads(1); // reordering weights wakes all others, which then spin for a while
    for (std::size_t i = 0; i < network.tensors.size(); ++i) {
        const auto& tensor = network.tensors[i];
        const int height = sheet.height / tensor.cell, width = sheet.width / tensor.cell;
        const memory::desc planes({1, tensor.channels, height, width}, memory::data_type::f32,
                                  memory::format_tag::nchw);
        parts_->tensors.emplace_back(
            i == 0 ? planes : parts_->inLanes(tensor.channels, height, width), parts_->engine);
    }
    for (const Operation& op : network.operations) {
        if (!op.weights.empty())
            parts_->addConvolution(op);
        else
            parts_->addDoubling(op);
    }
}

ConvolutionRunner::ConvolutionRunner(ConvolutionRunner&&) noexcept = default;
ConvolutionRunner& ConvolutionRunner::operator=(ConvolutionRunner&&) noexcept = default;
ConvolutionRunner::~ConvolutionRunner() = default;

float* ConvolutionRunner::input() {
    return numbersOf(parts_->tensors.front());
}

int ConvolutionRunner::valuesPerCell() const {
    return parts_->lanes;
}

const float* ConvolutionRunner::run() {
    omp_set_num_threads(1);
    for (const auto& step : parts_->steps)
        step();
    parts_->stream.wait();
    return numbersOf(parts_->tensors.back());
}

} // namespace swarfbook
