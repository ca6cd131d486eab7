// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/memory.h"
#include "network/convolutions.h"
#include "network/tensor_memory.h"

#include <algorithm>
#include <dnnl.hpp>
#include <functional>
#include <stdexcept>
#include <unordered_map>

/// Of the OpenMP standard: how many threads the calling thread's next regions have. Declared here
/// since omp.h belongs to a compiler, while oneDNN works with GNU's library whatever compiles this.
extern "C" void omp_set_num_threads(int threads);

namespace swarfbook {
namespace {

/// Memory that oneDNN takes to make the code of all convolutions, beside the tensors: 40 MiB, seen
/// with the piece network. It crashes if it gets none.
constexpr std::size_t makingCodeMiB = 64;

using Operation = ConvolutionNetwork::Operation;
using dnnl::memory;

bool processorHas(dnnl::cpu_isa wanted) {
    const auto has = static_cast<unsigned>(dnnl::get_effective_cpu_isa()); // a set of bits
    return (has & static_cast<unsigned>(wanted)) == static_cast<unsigned>(wanted);
}

/// Index of the last operation that reads each tensor; the answer is read after all.
std::vector<std::size_t> lastReadings(const ConvolutionNetwork& network) {
    std::vector<std::size_t> last(network.tensors.size(), 0);
    for (std::size_t i = 0; i < network.operations.size(); ++i) {
        const Operation& op = network.operations[i];
        last[op.from] = i;
        if (op.adds)
            last[op.plus] = i;
    }
    last[network.operations.back().to] = network.operations.size();
    return last;
}

} // namespace

int lanesOfProcessor() {
    return processorHas(dnnl::cpu_isa::avx512_core) ? 16 : 8;
}

Precision precisionOfProcessor() {
    return processorHas(dnnl::cpu_isa::avx512_core_bf16) ? Precision::bfloat16 : Precision::float32;
}

struct ConvolutionRunner::Parts {
    How way;
    dnnl::engine engine{dnnl::engine::kind::cpu, 0};
    dnnl::stream stream{engine};
    TensorMemory room{engine};
    memory input;
    std::vector<memory> tensors;
    std::vector<memory> margins; ///< copies with zeros around, whose middles are written
    std::vector<std::function<void()>> steps;

    [[nodiscard]] memory::data_type type() const {
        return way.precision == Precision::bfloat16 ? memory::data_type::bf16
                                                    : memory::data_type::f32;
    }

    [[nodiscard]] memory::desc inLanes(const memory::dims& size, memory::data_type of) const {
        return {size, of,
                way.lanes == 16 ? memory::format_tag::nChw16c : memory::format_tag::nChw8c};
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
            inLanes({dims[0], dims[1], dims[2] + 2 * margin, dims[3] + 2 * margin}, type());
        memory padded(descriptor, engine);
        std::fill_n(static_cast<char*>(padded.get_data_handle()), descriptor.get_size(), 0);
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

    /// What follows an operation: rectifying, adding, rectifying the sum.
    [[nodiscard]] dnnl::primitive_attr after(const Operation& op) const {
        const auto rectify = [](dnnl::post_ops& ops) {
            ops.append_eltwise(1.0F, dnnl::algorithm::eltwise_relu, 0.0F, 0.0F);
        };
        dnnl::post_ops then;
        if (op.rectified)
            rectify(then);
        if (op.adds && addsInPlace(op))
            then.append_sum(1.0F);
        else if (op.adds)
            then.append_binary(dnnl::algorithm::binary_add, tensors[op.plus].get_desc());
        if (op.sumRectified)
            rectify(then);
        dnnl::primitive_attr attributes;
        attributes.set_post_ops(then);
        return attributes;
    }

    [[nodiscard]] bool addsInPlace(const Operation& op) const {
        return tensors[op.plus].get_data_handle() == tensors[op.to].get_data_handle();
    }

    void addSum(const Operation& op, std::unordered_map<int, memory>& on) const {
        if (op.adds && !addsInPlace(op))
            on[DNNL_ARG_ATTR_MULTIPLE_POST_OP(op.rectified ? 1 : 0) | DNNL_ARG_SRC_1] =
                tensors[op.plus];
    }

    void addDoubling(const Operation& op) {
        const dnnl::resampling_forward::desc what(
            dnnl::prop_kind::forward_inference, dnnl::algorithm::resampling_nearest,
            tensors[op.from].get_desc(), tensors[op.to].get_desc());
        const dnnl::resampling_forward::primitive_desc how(what, after(op), engine);
        std::unordered_map<int, memory> on{{DNNL_ARG_SRC, tensors[op.from]},
                                           {DNNL_ARG_DST, tensors[op.to]}};
        addSum(op, on);
        execute(dnnl::resampling_forward(how), std::move(on));
    }

    void addConvolution(const Operation& op) {
        const int half = op.dilation * (op.kernel - 1) / 2;
        const memory in = withMargin(tensors[op.from], half);
        const bool hasMargin = in != tensors[op.from];
        const memory::dim before = hasMargin ? 0 : half;
        const memory::dim behind = hasMargin ? 0 : half - (op.stride - 1);
        const int answers = op.weights.size[0];
        const memory::desc weights({answers, op.weights.size[1], op.kernel, op.kernel},
                                   memory::data_type::f32, memory::format_tag::oihw);
        const memory::desc bias({answers}, memory::data_type::f32, memory::format_tag::a);
        memory::desc anyWeights(weights.dims(), type(), memory::format_tag::any);
        const memory::dims strides(2, op.stride), dilates(2, op.dilation - 1);
        const dnnl::convolution_forward::desc what(
            dnnl::prop_kind::forward_inference, dnnl::algorithm::convolution_direct, in.get_desc(),
            anyWeights, bias, tensors[op.to].get_desc(), strides, dilates, {before, before},
            {behind, behind});
        const dnnl::convolution_forward::primitive_desc how(what, after(op), engine);
        std::unordered_map<int, memory> on{
            {DNNL_ARG_SRC, in},
            {DNNL_ARG_WEIGHTS, ordered(op.weights, weights, how.weights_desc())},
            {DNNL_ARG_BIAS, ordered(op.bias, bias, bias)},
            {DNNL_ARG_DST, tensors[op.to]}};
        addSum(op, on);
        execute(dnnl::convolution_forward(how), std::move(on));
    }

    /// The input as the first convolution reads it.
    void addInput(const memory::dims& size) {
        const memory::desc given(size, memory::data_type::f32, memory::format_tag::nchw);
        input = room.take(given);
        tensors[0] = input;
        if (type() == memory::data_type::f32)
            return;
        tensors[0] = room.take({size, type(), memory::format_tag::nchw});
        execute(dnnl::reorder(input, tensors[0]),
                {{DNNL_ARG_FROM, input}, {DNNL_ARG_TO, tensors[0]}});
        room.giveBack(input);
    }
};

namespace {

memory::dims sizeOf(const ConvolutionNetwork::Tensor& tensor, cv::Size sheet) {
    return {1, tensor.channels, sheet.height / tensor.cell, sheet.width / tensor.cell};
}

} // namespace

ConvolutionRunner::ConvolutionRunner(const ConvolutionNetwork& network, cv::Size sheet)
    : ConvolutionRunner(network, sheet, How{}) {}

ConvolutionRunner::ConvolutionRunner(const ConvolutionNetwork& network, cv::Size sheet,
                                     const How& how)
    : parts_(std::make_unique<Parts>()) {
    if ((how.lanes != 8 && how.lanes != 16) ||
        (how.lanes == 8 && how.precision == Precision::bfloat16))
        throw std::logic_error("a convolution runs on 8 lanes or on 16");
    parts_->way = how;
    requireMemory(makingCodeMiB);
    omp_set_num_threads(
        1); // reordering weights wakes all other threads, which then spin for a while
    auto& tensors = parts_->tensors;
    tensors.resize(network.tensors.size());
    const auto descriptionOf = [&](std::size_t tensor, memory::data_type type) {
        return parts_->inLanes(sizeOf(network.tensors[tensor], sheet), type);
    };
    const auto answer =
        descriptionOf(network.operations.back().to, memory::data_type::f32); // the largest of all
    parts_->room.giveBack(parts_->room.take(answer));
    parts_->addInput(sizeOf(network.tensors[0], sheet));
    const auto last = lastReadings(network);
    for (std::size_t i = 0; i < network.operations.size(); ++i) {
        const Operation& op = network.operations[i];
        const bool isAnswer = i + 1 == network.operations.size();
        const bool goesOn = op.adds && op.plus != op.from && last[op.plus] == i; // not with plus
        const bool inPlace = goesOn && op.plus != 0 && !isAnswer;
        tensors[op.to] = isAnswer  ? parts_->room.take(answer)
                         : inPlace ? tensors[op.plus]
                                   : parts_->room.take(descriptionOf(op.to, parts_->type()));
        if (op.weights.empty())
            parts_->addDoubling(op);
        else
            parts_->addConvolution(op);
        if (last[op.from] == i)
            parts_->room.giveBack(tensors[op.from]);
        if (goesOn && !inPlace)
            parts_->room.giveBack(tensors[op.plus]);
    }
}

ConvolutionRunner::ConvolutionRunner(ConvolutionRunner&&) noexcept = default;
ConvolutionRunner& ConvolutionRunner::operator=(ConvolutionRunner&&) noexcept = default;
ConvolutionRunner::~ConvolutionRunner() = default;

float* ConvolutionRunner::input() {
    return static_cast<float*>(parts_->input.get_data_handle());
}

Answers ConvolutionRunner::run() {
    omp_set_num_threads(1);
    for (const auto& step : parts_->steps)
        step();
    parts_->stream.wait();
    const memory& answer = parts_->tensors.back();
    const auto size = answer.get_desc().dims();
    return {static_cast<const float*>(answer.get_data_handle()), parts_->way.lanes,
            static_cast<int>(size[2] * size[3])};
}

} // namespace swarfbook
