// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <opencv2/core.hpp>

#include <filesystem>
#include <memory>
#include <vector>

namespace swarfbook {

/// The operations of a network of convolutions, in order. Tensor 0 is the input; the last
/// operation's tensor is the answer.
struct ConvolutionNetwork {
    /// A convolution that keeps the size or halves it; rectified or not; plus another tensor or
    /// not, that sum rectified or not. Or, without weights, a tensor doubled in size (each value
    /// 2 x 2 times) plus another.
    struct Operation {
        std::size_t from = 0, to = 0;
        std::size_t plus = 0; ///< the tensor that is added, where adds
        bool adds = false;
        bool rectified = false;    ///< the convolution, before anything is added
        bool sumRectified = false; ///< the sum, where adds
        cv::Mat weights;           ///< CV_32F: answers x channels x kernel x kernel
        cv::Mat bias;              ///< CV_32F, one for each answer
        int kernel = 1, stride = 1, dilation = 1;
    };
    struct Tensor {
        int channels = 0;
        int cell = 1;  ///< px a side of the input that one value stands for
        int reach = 0; ///< px of the input beyond its own that a value depends on, at most
    };
    std::vector<Operation> operations;
    std::vector<Tensor> tensors;

    /// Reads an ONNX file by OpenCV. Throws std::exception if it is not such a network.
    /// @param channels  of the input
    static ConvolutionNetwork read(const std::filesystem::path& file, int channels);
    [[nodiscard]] const Tensor& answer() const { return tensors[operations.back().to]; }
    /// px a side of the input that one value of the coarsest tensor stands for.
    [[nodiscard]] int coarsestCell() const;
};

/// Numbers that one instruction of this processor works on: 16 or 8.
int lanesOfProcessor();

/// How a network's numbers are kept: with 24 bits of mantissa, or with 8, which some processors
/// multiply faster.
enum class Precision { float32, bfloat16 };

/// The fastest that this processor has.
Precision precisionOfProcessor();

/// What a network answered: for each cell of a sheet, row by row, some channels side by side.
struct Answers {
    const float* numbers = nullptr;
    int lanes = 8; ///< channels that lie side by side
    int cells = 0; ///< on the sheet

    [[nodiscard]] float at(int channel, int cell) const {
        return numbers[(static_cast<std::ptrdiff_t>(channel / lanes) * cells + cell) * lanes +
                       channel % lanes];
    }
};

/// Runs such a network on sheets of one size, by oneDNN, on the calling thread alone; several
/// threads have a runner each. Checked: tests/network/convolutions_test.cpp (OpenCV runs the same).
class ConvolutionRunner {
  public:
    struct How {
        int lanes = lanesOfProcessor();           ///< channels that lie side by side: 8 or 16
        Precision precision = Precision::float32; ///< bfloat16 with 16 lanes alone
    };
    /// @param sheet  px; multiples of the network's coarsest cell
    ConvolutionRunner(const ConvolutionNetwork& network, cv::Size sheet, const How& how);
    ConvolutionRunner(const ConvolutionNetwork& network, cv::Size sheet);
    ConvolutionRunner(ConvolutionRunner&&) noexcept;
    ConvolutionRunner& operator=(ConvolutionRunner&&) noexcept;
    ~ConvolutionRunner();

    /// The input: channels x height x width. Write it anew before each run.
    [[nodiscard]] float* input();
    /// Valid until the input is written again.
    [[nodiscard]] Answers run();

  private:
    struct Parts;
    std::unique_ptr<Parts> parts_;
};

} // namespace swarfbook
